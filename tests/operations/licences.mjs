// `npm run licences`: every package that a production install brings, with its version and licence as it states it.
import { readFileSync } from 'node:fs';

const { packages } = JSON.parse(readFileSync(new URL('../../package-lock.json', import.meta.url), 'utf8'));
const rows = Object.entries(packages)
  .filter(([path, { dev }]) => path !== '' && !dev)
  .map(([path, { version, license }]) => [
    path.split('node_modules/').at(-1),
    version,
    license ?? 'not stated',
  ])
  .sort(([a], [b]) => (a < b ? -1 : 1));
for (const row of rows) console.log(row.join('\t'));
