import chromium from '@sparticuz/chromium';
import { type Browser, chromium as playwright } from 'playwright-core';

/** A real Chromium without a screen. PLAYWRIGHT_CHROMIUM points to an installed one instead of the packaged one. */
export async function launchBrowser(): Promise<Browser> {
  return playwright.launch({
    executablePath: process.env.PLAYWRIGHT_CHROMIUM ?? (await chromium.executablePath()),
    args: [...chromium.args.filter((a) => !/^--(single-process|headless)/.test(a)), '--no-sandbox'],
    headless: true,
  });
}
