/**
 * The day's work without a mouse, end to end in a real browser: every step is a key, what has the focus can be seen (WCAG 2.2,
 * 2.4.7 and 2.4.11), and after a refusal the keyboard is where the first mistake is.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { systemActor } from '../../src/store/contract.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { type DemoService, people, startDemoService, TODAY } from './demo-service.js';
import { launchBrowser } from './launch-browser.js';

let database: TestDatabase;
let service: DemoService;
let browser: Browser;

beforeAll(async () => {
  database = await testDatabase();
  [service, browser] = await Promise.all([startDemoService(database.url, { children: 20 }), launchBrowser()]);
}, 300_000);

afterAll(async () => {
  await browser?.close();
  await service?.close();
  await database?.stop();
});

interface Focus {
  readonly words: string;
  readonly id: string;
  /** Has it an outline, some size, and nothing over it? */
  readonly seen: boolean;
}

const focusOf = (page: Page): Promise<Focus> =>
  page.evaluate(() => {
    const e = document.activeElement as HTMLElement;
    const box = e.getBoundingClientRect();
    const x = box.x + Math.min(box.width, 40) / 2;
    const top = document.elementFromPoint(x, box.y + box.height / 2);
    const label = (e as HTMLInputElement).labels?.[0]?.textContent;
    return {
      words: (e.getAttribute('aria-label') ?? label ?? e.textContent ?? '').replaceAll(/\s+/g, ' ').trim(),
      id: e.id,
      seen:
        e !== document.body &&
        // Chromium itself marks the calendar button inside a field of a date or month.
        (getComputedStyle(e).outlineStyle !== 'none' || e.matches('input[type=date], input[type=month]')) &&
        box.width > 0 &&
        (top === e || e.contains(top) || !!top?.contains(e)),
    };
  });

/** Tab by Tab to what is called so, every stop on the way to be seen; fails when it takes longer than anybody would bear. */
async function tabTo(page: Page, words: RegExp, most: number): Promise<void> {
  const way: string[] = [];
  for (let i = 0; i < most; i++) {
    await page.keyboard.press('Tab');
    const focus = await focusOf(page);
    way.push(focus.words);
    expect(focus, `after ${way.join(' > ')}`).toMatchObject({ seen: true });
    if (words.test(focus.words)) return;
  }
  throw new Error(`not within ${most} steps: ${way.join(' > ')}`);
}

/** Follows a link or presses a button that has the focus, until the next page is there. */
async function enter(page: Page, key = 'Enter'): Promise<void> {
  await Promise.all([page.waitForEvent('load'), page.keyboard.press(key)]);
}

const press = async (page: Page, ...keys: string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key);
};

/** Past the places every page begins with. */
async function skip(page: Page): Promise<void> {
  await tabTo(page, /^Skip to content$/, 1);
  await press(page, 'Enter');
}

/** From the sign-in page, which has put the keyboard where it is needed. */
async function signInByKeys(role: string): Promise<Page> {
  const context = await browser.newContext({ locale: 'en-GB', baseURL: service.url });
  const page = await context.newPage();
  const person = people.find((p) => p.role === role);
  await page.goto('/sign-in');
  expect(await focusOf(page)).toMatchObject({ id: 'name', seen: true });
  await page.keyboard.type(person?.name ?? '');
  await press(page, 'Tab');
  await page.keyboard.type('not the password');
  await enter(page);
  // The name is kept: only the password has to be typed again.
  await page.waitForSelector('[role=alert]');
  expect(await focusOf(page)).toMatchObject({ id: 'password', seen: true });
  await page.keyboard.type(person?.password ?? '');
  await enter(page);
  return page;
}

it('a clinician finds a child, enters a visit, casts the next device and prints the slip', async () => {
  const { items } = await service.store.children.search({ sort: 'soonest' }, { limit: 100 }, systemActor);
  const child = items.find((c) => c.soonest?.outcome === 'forecast' && /(^|-)afo/.test(c.soonest.family));
  if (!child?.soonest)
    throw new Error('the demo clinic has no child with a forecast of an ankle-foot orthosis');
  const page = await signInByKeys('clinician');
  expect(new URL(page.url()).pathname).toBe('/today');
  expect(await focusOf(page)).toMatchObject({ seen: true });
  await page.keyboard.type(child.name);
  await enter(page);
  if (!page.url().includes(`/children/${child.id}`)) {
    await tabTo(page, new RegExp(child.name), 12);
    await enter(page);
  }
  await skip(page);
  await tabTo(page, /^Enter a visit$/, 4);
  await enter(page);

  // The first reading has the focus; what cannot be is refused and has it again.
  const first = await focusOf(page);
  expect(first).toMatchObject({ seen: true, id: expect.stringMatching(/^foot_length/) });
  await page.keyboard.type('a foot');
  await enter(page, 'Control+Enter');
  await page.waitForSelector('[role=alert]');
  expect(await focusOf(page)).toMatchObject({ id: first.id, seen: true });
  const [measure, side] = first.id.split('.');
  const { measurements } = await service.store.children.record(child.id, systemActor);
  const [last] = measurements
    .filter((m) => m.measure === measure && m.side === side)
    .toSorted((a, b) => b.date.localeCompare(a.date));
  await press(page, 'Control+a');
  await page.keyboard.type(`${last.value + 1}`);
  await enter(page, 'Control+Enter');
  expect(new URL(page.url()).pathname).toBe(`/children/${child.id}`);
  const after = await service.store.children.record(child.id, systemActor);
  expect(after.measurements.filter((m) => m.date === TODAY)).toMatchObject([
    { measure, side, value: last.value + 1 },
  ]);

  await skip(page);
  await tabTo(page, /^Cast the next one/, 20);
  await enter(page);
  await skip(page);
  await tabTo(page, /growth allowed/i, 15);
  const { id: room } = await focusOf(page);
  await page.keyboard.type('plenty');
  await enter(page);
  await page.waitForSelector('[role=alert]');
  expect(await focusOf(page)).toMatchObject({ id: room, seen: true });
  await press(page, 'Control+a', 'Delete');
  await enter(page);
  expect(new URL(page.url()).pathname).toMatch(/\/slip$/);
  const devices = (await service.store.children.record(child.id, systemActor)).devices;
  expect(devices.filter((d) => d.castDate === TODAY && d.replaces === child.soonest?.deviceId)).toHaveLength(
    1,
  );

  await page.evaluate(() => {
    addEventListener('beforeprint', () => document.body.setAttribute('data-printed', 'yes'));
  });
  await tabTo(page, /^Print/, 5);
  await press(page, 'Enter');
  await page.waitForSelector('body[data-printed=yes]');
  await page.context().close();
}, 120_000);

it('a scheduler works the list: rang, left a message, booked for a day, and prints it', async () => {
  const page = await signInByKeys('scheduler');
  expect(new URL(page.url()).pathname).toBe('/recall');
  const entryOf = async (): Promise<string> => (await page.getAttribute('tr.chosen', 'data-entry')) ?? '';
  const stored = async (id: string) => service.store.recall.entry(id, systemActor);

  // By letters, row after row.
  await press(page, 'j');
  const first = await entryOf();
  await enter(page, 'c');
  expect(await stored(first)).toMatchObject({ state: 'called' });
  expect(await focusOf(page)).toMatchObject({ seen: true });
  await press(page, 'j');
  const second = await entryOf();
  await enter(page, 'm');
  expect(await stored(second)).toMatchObject({ state: 'left-message' });
  expect(await page.textContent(`tr[data-entry="${second}"]`)).toContain('Ring again on ');

  // By Tab into the row after it: a letter is for the family where the keyboard is.
  const ids = await page
    .locator('tr[data-entry]')
    .evaluateAll((all) => all.map((row) => row.getAttribute('data-entry') ?? ''));
  const third = ids[ids.indexOf(second) + 1];
  const name = await page.textContent(`tr[data-entry="${third}"] th a`);
  await tabTo(page, new RegExp(`^${name}$`), 20);
  expect(await entryOf()).toBe(third);
  await enter(page, 'c');
  expect(await stored(third)).toMatchObject({ state: 'called' });

  // Booked for a day that is typed.
  await tabTo(page, /^Day, note, other answers$/, 20);
  await press(page, 'Enter');
  await tabTo(page, /^Day booked for/, 2);
  // In the order Chromium has without a language of its own.
  await page.keyboard.type('06242026');
  // The date is one field of three parts and a button: on to the note, then back to the answers above.
  await tabTo(page, /^Note for/, 5);
  await page.keyboard.type('mornings');
  await press(page, 'Escape');
  for (let i = 0; i < 12 && (await focusOf(page)).words !== 'booked'; i++) await press(page, 'Shift+Tab');
  await enter(page);
  expect(await stored(third)).toMatchObject({
    state: 'booked',
    appointment: '2026-06-24',
    stateNote: 'mornings',
  });

  // Letters and the list for the printer are behind one more button.
  for (let i = 0; i < 80 && (await focusOf(page)).words !== 'More'; i++) await press(page, 'Shift+Tab');
  await press(page, 'Enter');
  await tabTo(page, /^All on one page$/, 8);
  await enter(page);
  expect(await page.locator('tr[data-entry]').count()).toBeGreaterThan(3);
  const paper = await page.pdf({ format: 'A4' });
  expect(paper.length).toBeGreaterThan(5000);
  await page.context().close();
}, 120_000);
