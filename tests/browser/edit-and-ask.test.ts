/**
 * The lead reads whether the dates held, the clinician edits a child and asks what if, and nobody meets raw JSON: in a
 * real browser on the real service. Past forecasts are those the model would have made then, from the demo's records.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { heldAgainstVerdicts } from '../../src/forecast/device/held-against-verdicts.js';
import { FEWEST_JUDGED } from '../../src/pages/clinic/forecasts-held.js';
import { systemActor } from '../../src/store/contract.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { type DemoService, startDemoService, TODAY } from './demo-service.js';
import { launchBrowser } from './launch-browser.js';
import { accessibilityFaults, focused, overflow, signedIn } from './person.js';

let database: TestDatabase;
let service: DemoService;
let browser: Browser;
/** A child with a forecast for a device of the leg. */
let child: { id: string; name: string; deviceId: string };

beforeAll(async () => {
  database = await testDatabase();
  [service, browser] = await Promise.all([
    startDemoService(database.url, { children: 40, lookBack: true }),
    launchBrowser(),
  ]);
  const { items } = await service.store.children.search({ sort: 'soonest' }, { limit: 100 }, systemActor);
  const found = items.find(
    (c) => c.soonest?.outcome === 'forecast' && c.name !== '' && c.soonest.family.includes('afo'),
  );
  if (!found?.soonest) throw new Error('the demo clinic has no child with a forecast for a leg');
  child = { id: found.id, name: found.name, deviceId: found.soonest.deviceId };
}, 300_000);

afterAll(async () => {
  await browser?.close();
  await service?.close();
  await database?.stop();
});

const path = (rest = '') => `/children/${encodeURIComponent(child.id)}${rest}`;

describe('the lead', () => {
  it('sees whether the dates held, with the caution that verdicts come late', async () => {
    const [caseload, past] = await Promise.all([
      service.store.caseload.all(),
      service.store.forecasts.history(),
    ]);
    const held = heldAgainstVerdicts(caseload.devices, caseload.events, past, TODAY);
    expect(held.judged).toBeGreaterThanOrEqual(FEWEST_JUDGED);
    const { page, context } = await signedIn(browser, service.url, 'administrator');
    const broken: string[] = [];
    page.on('console', (m) => m.type() === 'error' && broken.push(m.text()));
    await page.goto('/overview');
    const section = page.locator('section:has(> #held)');
    expect(await section.textContent()).toContain('Outgrown is found late');
    for (const d of held.dates) {
      const row = section.locator(`tr:has(th:has-text("${Math.round(d.chance * 100)}"))`).first();
      expect(await row.textContent()).toContain(`${d.outgrown} of ${d.outgrown + d.between + d.fitted}`);
    }
    expect(broken).toEqual([]);
    expect(await accessibilityFaults(page)).toEqual([]);
    for (const width of [640, 360]) {
      await page.setViewportSize({ width, height: 800 });
      expect(await overflow(page), `at ${width}`).toBe(0);
    }
    await context.close();
  });
});

describe('the clinician', () => {
  it('edits a child from the keyboard; a mistake is named beside its field and nothing is lost', async () => {
    const { page, context } = await signedIn(browser, service.url, 'clinician', {}, path());
    await page.click('text=Edit details');
    await page.focus('#contact');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('aunt, after five');
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe('language');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('what they speak');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe('clinician');
    // On to the first day of transport.
    for (let steps = 0; steps < 5; steps++) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement?.getAttribute('name') === 'transportDays')) break;
    }
    await page.keyboard.press('Space');
    await page.keyboard.press('Enter');
    await page.waitForSelector('[role=alert]');
    expect(await page.getAttribute('#language', 'aria-invalid')).toBe('true');
    const remark = await page.getAttribute('#language', 'aria-describedby');
    expect(await page.textContent(`#${remark}`)).toContain('a language code such as en');
    expect(await page.inputValue('#contact')).toBe('aunt, after five');
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.click('[role=alert] a');
    expect(await focused(page)).toBe('language');
    await page.fill('#language', 'es');
    await page.keyboard.press('Enter');
    await page.waitForSelector('[role=status] >> text=Details saved');
    const { value } = await service.store.children.get(child.id, systemActor);
    expect(value).toMatchObject({ contact: 'aunt, after five', language: 'es' });
    expect(value.transportDays).toContain(1);
    await context.close();
  });

  it('is told when somebody else saved meanwhile, and loses neither', async () => {
    const { page, context } = await signedIn(browser, service.url, 'clinician', {}, path('/edit'));
    await service.store.children.change(
      child.id,
      { contact: 'the desk’s change' },
      '2026-06-15',
      null,
      systemActor,
    );
    await page.fill('#siblingGroup', 'the cousins');
    await page.click('text=Save');
    await page.waitForSelector('[role=alert] >> text=Somebody else saved');
    expect(await page.textContent('#contact-remark')).toContain('the desk’s change');
    expect((await service.store.children.get(child.id, systemActor)).value.contact).toBe('the desk’s change');
    await page.fill('#contact', 'the desk’s change');
    await page.click('text=Save mine');
    await page.waitForSelector('[role=status] >> text=Details saved');
    const { value } = await service.store.children.get(child.id, systemActor);
    expect(value).toMatchObject({ contact: 'the desk’s change', siblingGroup: 'the cousins' });
    await context.close();
  });

  it('asks how much room the next one needs, without script, and nothing is saved', async () => {
    const before = JSON.stringify(await service.store.children.record(child.id, systemActor));
    const { page, context } = await signedIn(
      browser,
      service.url,
      'clinician',
      {
        javaScriptEnabled: false,
      },
      path(`/what-if/next?device=${encodeURIComponent(child.deviceId)}`),
    );
    const needed = page.locator('#room-table tbody tr').first().locator('[data-needed]');
    const inNineMonths = Number(await needed.textContent());
    await page.focus('#months');
    await page.keyboard.press('End');
    await page.click('text=Show');
    await page.waitForURL((url) => url.searchParams.get('months') === '24');
    expect(Number(await needed.textContent())).toBeGreaterThan(inNineMonths);
    expect(JSON.stringify(await service.store.children.record(child.id, systemActor))).toBe(before);
    await context.close();
  });
});

describe('anybody', () => {
  it('meets a page at an address that leads nowhere or belongs to another role, and gets back', async () => {
    const { page, context } = await signedIn(browser, service.url, 'scheduler');
    for (const [place, status, title] of [
      ['/no/such/place', 404, 'Not found'],
      ['/users', 403, 'Your role may not do this'],
    ] as const) {
      await page.goto('/recall');
      const answer = await page.goto(place, { referer: `${service.url}/recall` });
      expect(answer?.status()).toBe(status);
      expect(answer?.headers()['content-type']).toContain('text/html');
      expect(await page.textContent('h1')).toBe(title);
      await page.click('main >> text=Go back');
      await page.waitForURL((url) => url.pathname === '/recall');
    }
    await context.close();
  });
});
