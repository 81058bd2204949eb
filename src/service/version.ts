import { readFileSync } from 'node:fs';

/** Of this doorpost, as package.json says it. */
export const { version } = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
) as { version: string };
