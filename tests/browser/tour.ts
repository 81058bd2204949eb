/**
 * The README's tour: five pictures of the demo clinic, taken from the running service. `npx tsx tests/browser/tour.ts`
 * writes charts/tour/*.png. Everyone in them is invented.
 */
import { mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { systemActor } from '../../src/store/contract.js';
import { testDatabase } from '../database/test-database.js';
import { startDemoService } from './demo-service.js';
import { launchBrowser } from './launch-browser.js';
import { signedIn } from './person.js';

const folder = fileURLToPath(new URL('../../charts/tour/', import.meta.url));

async function main(): Promise<void> {
  await mkdir(folder, { recursive: true });
  const database = await testDatabase();
  const service = await startDemoService(database.url, { children: 60 });
  const browser = await launchBrowser();
  const { items } = await service.store.children.search({ sort: 'soonest' }, { limit: 100 }, systemActor);
  // A child with some history: the chart then shows what the tool is about.
  let child = items[0];
  let most = 0;
  for (const c of items.filter(
    (x) => x.soonest?.outcome === 'forecast' && x.soonest.family.includes('afo'),
  )) {
    const visits = (await service.store.visits.list(c.id, systemActor)).length;
    if (visits > most) [child, most] = [c, visits];
  }
  const path = `/children/${encodeURIComponent(child.id)}`;
  const size = { viewport: { width: 1200, height: 900 } };
  const clinician = await signedIn(browser, service.url, 'clinician', size);
  const scheduler = await signedIn(browser, service.url, 'scheduler', size);

  await clinician.page.goto(path);
  await clinician.page.screenshot({ path: `${folder}1-child.png` });
  await clinician.page.locator('#growth').scrollIntoViewIfNeeded();
  await clinician.page.locator('section:has(#growth)').screenshot({ path: `${folder}2-growth.png` });
  await clinician.page.goto(
    `${path}/what-if/next?device=${encodeURIComponent(child.soonest?.deviceId ?? '')}`,
  );
  await clinician.page.waitForSelector('#room-table[data-ready=yes]');
  await clinician.page.focus('#months');
  for (let i = 0; i < 3; i++) await clinician.page.keyboard.press('ArrowRight');
  await clinician.page.waitForSelector('#room-table[data-shown]');
  await clinician.page.screenshot({ path: `${folder}3-what-if.png` });
  await scheduler.page.goto('/recall');
  await scheduler.page.screenshot({ path: `${folder}4-recall.png` });
  await clinician.page.setViewportSize({ width: 900, height: 1180 });
  await clinician.page.goto(`${path}/family`);
  await clinician.page.screenshot({ path: `${folder}5-family.png` });

  await browser.close();
  await service.close();
  await database.stop();
}

await main();
