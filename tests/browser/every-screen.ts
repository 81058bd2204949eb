/**
 * A picture of every page in every state, at the width of a desk, a tablet and a telephone, and its print, from the real service with
 * the invented demo clinic: `npx tsx tests/browser/every-screen.ts FOLDER [names as a regular expression]`. To be looked at, not kept.
 */
import { readFileSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { systemActor } from '../../src/store/contract.js';
import { testDatabase } from '../database/test-database.js';
import { type DemoService, startDemoService } from './demo-service.js';
import { launchBrowser } from './launch-browser.js';
import { signedIn } from './person.js';

const [folder = 'screens', only = ''] = process.argv.slice(2);
const DESK = [{}, [1440, 900]] as const;
/** It says what it is, and is sent the narrow charts. */
const TELEPHONE = [{ userAgent: 'Mobi', isMobile: true, hasTouch: true }, [390]] as const;

/** As it comes out of a printer that prints no backgrounds. */
const print = (page: Page, name: string): Promise<Buffer> =>
  page.pdf({ path: `${folder}/${name}.pdf`, format: 'A4', preferCSSPageSize: true });

/** A long page laid out in columns, so that one picture shows it whole and legible. */
async function shoot(browser: Browser, page: Page, name: string, width: number): Promise<void> {
  await page.setViewportSize({ width, height: 900 });
  const whole = await page.screenshot({ fullPage: true });
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  const column = 1500;
  const perSheet = Math.max(1, Math.floor(1900 / width));
  const columns = Math.min(Math.ceil(height / column), 4 * perSheet);
  for (let first = 0; first < columns; first += perSheet) {
    const shown = Math.min(perSheet, columns - first);
    const sheet = await browser.newPage({
      viewport: { width: shown * (width + 10), height: Math.min(column, height) },
    });
    const image = `data:image/png;base64,${whole.toString('base64')}`;
    const parts = Array.from(
      { length: shown },
      (_, i) =>
        `<div style="position:absolute;left:${i * (width + 10)}px;top:0;width:${width}px;height:${column}px;background:url(${image}) 0 -${(first + i) * column}px no-repeat"></div>`,
    );
    await sheet.setContent(`<body style="margin:0;background:#888">${parts.join('')}`);
    await sheet.screenshot({ path: `${folder}/${name}-${width}-${1 + first / perSheet}.png` });
    await sheet.close();
  }
}

/** The example list of a clinic, tried and not written: what was understood and what is asked. */
async function triedImport({ store, url }: DemoService): Promise<string> {
  const administrator = (await store.users.list()).find((u) => u.role === 'administrator');
  const token = await store.accessTokens.create(administrator?.id ?? '', new Date(Date.now() + 60_000));
  const answer = await fetch(`${url}/api/imports`, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    body: JSON.stringify({
      files: [{ name: 'clinic.csv', text: readFileSync('tests/examples/clinic.csv', 'utf8') }],
    }),
  });
  return `/import/${((await answer.json()) as { id: string }).id}`;
}

async function places(service: DemoService): Promise<Record<string, Record<string, string>>> {
  const { items } = await service.store.children.search({ sort: 'soonest' }, { limit: 200 }, systemActor);
  const of = (family: RegExp) =>
    items.find((c) => c.soonest?.outcome === 'forecast' && family.test(c.soonest.family));
  const afo = of(/(^|-)afo/) ?? items[0];
  const [kafo, spinal, cranial] = [of(/kafo/) ?? afo, of(/spin|tlso/) ?? afo, of(/cran/) ?? afo];
  const hip = of(/hip-abduction/) ?? afo;
  const child = (c: typeof afo, rest = '') => `/children/${encodeURIComponent(c.id)}${rest}`;
  const device = (rest = '', c = afo) =>
    child(c, `/devices/${encodeURIComponent(c.soonest?.deviceId ?? '')}${rest}`);
  const asked = `?device=${encodeURIComponent(afo.soonest?.deviceId ?? '')}`;
  return {
    clinician: {
      today: '/today',
      children: '/children',
      'children-none': '/children?text=zzzz',
      'child-new': '/children/new',
      'child-afo': child(afo),
      'child-kafo': child(kafo),
      'child-spinal': child(spinal),
      'child-cranial': child(cranial),
      visit: child(afo, '/visit'),
      'visit-kafo': child(kafo, '/visit'),
      'device-new': child(afo, '/devices/new'),
      'device-new-kafo': child(afo, '/devices/new?family=kafo'),
      device: device(),
      'device-edit': device('/edit'),
      'device-next': device('/next'),
      'child-hip': child(hip),
      'visit-hip': child(hip, '/visit'),
      'device-hip': device('', hip),
      'device-edit-hip': device('/edit', hip),
      'device-next-hip': device('/next', hip),
      'slip-hip': device('/slip', hip),
      slip: device('/slip'),
      'what-if-next': child(afo, `/what-if/next${asked}`),
      'child-edit': child(afo, '/edit'),
      'child-record': child(afo, '/record'),
      'fit-rules': '/fit-rules',
      'fit-rules-afo': '/fit-rules/solid-afo',
      'sign-offs': '/sign-offs',
      'help-clinician': '/help/clinician',
      help: '/help',
      'not-found': '/children/nobody',
      password: '/password',
      ...Object.fromEntries(
        ['en', 'es', 'ar', 'tr', 'pl', 'fr', 'uk'].map((l) => [
          `family-${l}`,
          child(afo, `/family?language=${l}`),
        ]),
      ),
      'family-spinal': child(spinal, '/family?language=en'),
      'family-cranial': child(cranial, '/family?language=en'),
    },
    scheduler: {
      recall: '/recall',
      'recall-child': child(afo),
      'recall-today': '/today',
      capacity: '/capacity',
      letters: '/recall/letters',
      calendar: '/recall/calendar',
      overview: '/overview',
      'not-allowed': '/users',
    },
    administrator: {
      users: '/users',
      settings: '/settings',
      'admin-child': child(afo),
      'admin-record': child(afo, '/record'),
      import: '/import',
      'import-plan': await triedImport(service),
      'access-log': '/access-log',
    },
    auditor: { 'auditor-log': `/access-log?childId=${encodeURIComponent(afo.id)}` },
  };
}

async function main(): Promise<void> {
  await mkdir(folder, { recursive: true });
  const database = await testDatabase();
  const service = await startDemoService(database.url, { children: 60, lookBack: true });
  const browser = await launchBrowser();
  for (const [role, named] of Object.entries(await places(service))) {
    const wanted = Object.entries(named).filter(([name]) => new RegExp(only).test(name));
    if (wanted.length === 0) continue;
    for (const [device, widths] of [DESK, TELEPHONE] as const) {
      const { page, context } = await signedIn(browser, service.url, role, device);
      page.setDefaultTimeout(120_000);
      for (const [name, place] of wanted) {
        await page.setViewportSize({ width: widths[0], height: 900 });
        await page.goto(place);
        for (const width of widths) await shoot(browser, page, name, width);
        if (device === DESK[0]) await print(page, name);
      }
      await context.close();
    }
  }
  await browser.close();
  await service.close();
  await database.stop();
}

await main();
