import chromium from '@sparticuz/chromium';
import { type Browser, chromium as playwright } from 'playwright-core';

/** A real Chromium without a screen. PLAYWRIGHT_CHROMIUM points to an installed one instead of the packaged one. */
export async function launchBrowser(): Promise<Browser> {
  return playwright.launch({
    executablePath: process.env.PLAYWRIGHT_CHROMIUM ?? (await chromium.executablePath()),
    // Without the package's own arguments: they draw by a graphics card made of software, half as dear again.
    args: ['--no-sandbox', '--disable-gpu', '--font-render-hinting=none'],
    headless: true,
  });
}
