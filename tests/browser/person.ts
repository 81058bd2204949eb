import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { people } from './demo-service.js';

/** A browser of one's own, signed in through the sign-in page. */
export async function signedIn(
  browser: Browser,
  url: string,
  role: string,
  options: Parameters<Browser['newContext']>[0] = {},
): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ locale: 'en-GB', baseURL: url, ...options });
  const page = await context.newPage();
  const person = people.find((p) => p.role === role);
  if (!person) throw new Error(`no demo account for ${role}`);
  await page.goto('/sign-in');
  await page.fill('#name', person.name);
  await page.fill('#password', person.password);
  await page.click('main button[type=submit]');
  await page.waitForURL((to) => to.pathname !== '/sign-in');
  return { context, page };
}

/** What axe-core (WCAG 2.2 A and AA and its best practices) finds on the page, one line each. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const found = await page.evaluate(() =>
    (window as unknown as { axe: typeof axe }).axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    }),
  );
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).slice(0, 3)}`);
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
