/** `npm run bench:table`: writes the figures of the last bench into DEVELOPERS.md, between its two marks. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { benchTable, measuredFile } from './measure.js';

const page = fileURLToPath(new URL('../../DEVELOPERS.md', import.meta.url));
const [FROM, TO] = ['<!-- measured: npm run bench, then npm run bench:table -->', '<!-- end of measured -->'];

const table = benchTable(JSON.parse(readFileSync(measuredFile, 'utf8')));

const text = readFileSync(page, 'utf8');
const [from, to] = [text.indexOf(FROM), text.indexOf(TO)];
if (from < 0 || to < from) throw new Error(`DEVELOPERS.md has no '${FROM}' before '${TO}'`);
writeFileSync(page, `${text.slice(0, from)}${FROM}\n\n${table}\n\n${text.slice(to)}`);
