import chromium from '@sparticuz/chromium';
import { chromium as pw } from 'playwright-core';
const [user, pass, ...paths] = process.argv.slice(2);
const b = await pw.launch({ executablePath: await chromium.executablePath(), args: chromium.args, headless: true });
const p = await (await b.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
const base = 'http://127.0.0.1:3977';
await p.goto(base + '/sign-in'); 
await p.fill('input[name=name], input[name=username], input[name=user]', user); await p.fill('input[type=password]', pass);
await Promise.all([p.waitForNavigation(), p.click('button[type=submit]')]);
console.log('AT', p.url());
for (const path of paths) {
  const [url, shot] = path.split('@');
  const r = await p.goto(base + url, { waitUntil: 'load' });
  await p.waitForTimeout(500);
  console.log('=====', url, r?.status(), await p.title());
  console.log((await p.innerText('body')).slice(0, Number(process.env.MAX ?? 6000)));
  if (shot) await p.screenshot({ path: shot, fullPage: true });
}
await b.close();
