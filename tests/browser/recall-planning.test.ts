/**
 * The scheduler's month, in a real browser on the real service: what the clinic has room for, a family that cannot
 * come, one that is booked, and the list made again. The clinic's own rules: common practice, no source.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { type DemoService, startDemoService } from './demo-service.js';
import { launchBrowser } from './launch-browser.js';
import { accessibilityFaults, signedIn } from './person.js';

let database: TestDatabase;
let service: DemoService;
let browser: Browser;

beforeAll(async () => {
  database = await testDatabase();
  [service, browser] = await Promise.all([startDemoService(database.url, { children: 24 }), launchBrowser()]);
}, 300_000);

afterAll(async () => {
  await browser?.close();
  await service?.close();
  await database?.stop();
});

it('plans the weeks anew around what was agreed', async () => {
  const { page, context } = await signedIn(browser, service.url, 'scheduler', {}, '/capacity');
  const clinician = (k: number, label: string) =>
    page.getByRole('group', { name: `Clinician ${k}` }).getByLabel(label);
  await clinician(1, 'Name').fill('Ines');
  await clinician(1, 'Tue').fill('two');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.waitForSelector('[role=alert]');
  expect(await page.textContent('[role=alert]')).toMatch(/Slots of Ines, day 2: 'two'.*whole number/);
  expect(await clinician(1, 'Name').inputValue(), 'what was typed is kept').toBe('Ines');
  await clinician(1, 'Tue').fill('3');
  await clinician(2, 'Name').fill('Oskar');
  await clinician(2, 'Any day').fill('2');
  let pages = 0;
  page.on('framenavigated', () => pages++);
  await page.getByRole('button', { name: 'Save' }).click();
  await page.waitForSelector('[role=status] >> text=saved');
  expect(pages, 'a change of capacity in one page').toBe(1);

  await page.goto('/recall');
  // Rows that have a week: who must be seen at once stands outside the weeks.
  const ids = await page.$$eval('tr[data-entry]', (rows) =>
    rows
      .filter((tr) => tr.textContent!.includes('week of'))
      .map((tr) => tr.querySelector('th a')!.getAttribute('href')!),
  );
  expect(ids.length).toBeGreaterThan(2);
  const row = (href: string) => page.locator(`tr:has(th a[href="${href}"])`);
  await row(ids[0]).getByText('Day, note, other answers').click();
  await row(ids[0]).getByRole('button', { name: 'declined' }).click();
  await row(ids[1]).getByText('Day, note, other answers').click();
  const day = row(ids[1]).locator('input[name=appointment]');
  await day.fill('2026-06-24');
  await row(ids[1]).getByRole('button', { name: 'booked' }).click();
  await page.goto('/recall');
  const weekBefore = await row(ids[0]).textContent();
  await page.getByRole('button', { name: 'Give them a week' }).click();
  await expect
    .poll(
      async () => {
        await page.goto('/recall');
        return page.locator('[data-job]').count();
      },
      { timeout: 60_000, interval: 500 },
    )
    .toBe(0);

  const declined = await row(ids[0]).textContent();
  expect(declined).toContain('declined before');
  expect(declined).toContain('to call');
  expect(declined).toMatch(/with (Ines|Oskar)/);
  const weekOf = (text: string | null) => /week of (\d+ \w+ \d+)/.exec(text ?? '')?.[1];
  expect(weekOf(declined)).not.toBe(weekOf(weekBefore));
  expect(await row(ids[1]).textContent()).toContain('booked for 24 Jun 2026');
  expect(await page.getByRole('button', { name: 'Give them a week' }).count()).toBe(0);
  expect(await accessibilityFaults(page)).toEqual([]);

  // Next month's list: one press, and it is being made.
  pages = 0;
  await page.getByRole('button', { name: 'List to the end of July' }).click();
  await page.waitForSelector('[role=status] >> text=A new list is being made');
  expect(pages, 'pages to next month’s list').toBe(1);
  await context.close();
}, 180_000);
