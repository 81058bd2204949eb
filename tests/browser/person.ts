import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { people } from './demo-service.js';

/** Cookies by service and role: whoever has signed in once need not again, and each test has a browser of its own still. */
const cookies = new Map<string, Awaited<ReturnType<BrowserContext['storageState']>>>();

/** A browser of one's own, signed in through the sign-in page, on the role's first page or the place asked for. */
export async function signedIn(
  browser: Browser,
  url: string,
  role: string,
  options: Parameters<Browser['newContext']>[0] = {},
  place = '/',
): Promise<{ context: BrowserContext; page: Page }> {
  const storageState = cookies.get(`${url} ${role}`);
  const context = await browser.newContext({ locale: 'en-GB', baseURL: url, storageState, ...options });
  const page = await context.newPage();
  if (storageState) {
    await page.goto(place);
    return { context, page };
  }
  const person = people.find((p) => p.role === role);
  if (!person) throw new Error(`no demo account for ${role}`);
  await page.goto('/sign-in');
  await page.fill('#name', person.name);
  await page.fill('#password', person.password);
  await page.click('main button[type=submit]');
  await page.waitForURL((to) => to.pathname !== '/sign-in');
  cookies.set(`${url} ${role}`, await context.storageState());
  if (place !== '/') await page.goto(place);
  return { context, page };
}

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
/** The small build: it is sent to every page. */
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe-core (WCAG 2.2 A and AA and its best practices) finds on the page, one line each. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  return page.evaluate(async (runOnly) => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const { violations } = await axe.run(document, { runOnly, resultTypes: ['violations'], preload: false });
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).slice(0, 3)}`);
  }, rules);
}

/** By how many pixels the page is wider than the window. */
export const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - window.innerWidth));

/** A copy of the page's keyboard path: what has the focus, in words. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const e = document.activeElement as HTMLElement;
    return e.id || e.getAttribute('name') || e.textContent?.trim().slice(0, 40) || e.tagName;
  });
