import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readTable } from '../../src/exchange/csv/read-table.js';
import { wholeLines } from '../../src/exchange/csv/text-pieces.js';
import { csvTables } from '../../src/exchange/csv/write-caseload.js';
import { MOST_LINES, parseCaseload } from '../../src/exchange/parse-caseload.js';
import { type Caseload, caseloadParts } from '../../src/records/caseload.js';
import { childRecord } from '../../src/records/records.js';

const emptyCaseload = Object.fromEntries(caseloadParts.map((part) => [part, []])) as unknown as Caseload;
const cell = fc.oneof(
  fc.constantFrom('', 'a', '21,5', 'née', '"a,b"', '"two\nlines"', '"two\r\nlines"', '"a ""b"""', '""'),
);
const lineEnd = fc.constantFrom('\n', '\r\n', '\r');
const text = fc
  .tuple(fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { maxLength: 12 }), lineEnd, fc.boolean())
  .map(([lines, end, last]) => lines.map((cells) => cells.join(',')).join(end) + (last ? end : ''));
const rowsOf = (csv: string) =>
  parse(csv, { relax_column_count: true, record_delimiter: ['\r\n', '\n', '\r'] }) as string[][];

it('a text in pieces has the rows it has whole, wherever it was cut (against csv-parse on the whole)', () => {
  fc.assert(
    fc.property(text, fc.array(fc.nat(60), { maxLength: 6 }), (whole, cuts) => {
      const at = [0, ...cuts.map((c) => Math.min(c, whole.length)).sort((a, b) => a - b), whole.length];
      const pieces = [...wholeLines(at.slice(1).map((to, i) => whole.slice(at[i], to)))];
      expect(pieces.join('')).toBe(whole);
      expect(pieces.flatMap(rowsOf)).toEqual(rowsOf(whole));
    }),
    { seed: 20261128, numRuns: 400 },
  );
});

it('a file of several pieces on the disk is read like the same bytes in memory', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'doorpost-pieces-'));
  try {
    const child = (i: number) => ({
      id: `c${i}`,
      name: `Müller, Ada "${i}"`,
      birthDate: '2019-02-03',
      sex: 'female',
    });
    const children = Array.from({ length: 9000 }, (_, i) => childRecord.parse(child(i)));
    const csv = csvTables({ ...emptyCaseload, children })['children.csv'].slice(1);
    const bytes = new TextEncoder().encode(`\uFEFFsep=,\r\n${csv}bad,Bo,2019-02-30\r\n`);
    expect(bytes.length).toBeGreaterThan(2 * 256 * 1024);
    const path = join(folder, 'some-name');
    writeFileSync(path, bytes);
    const options = { today: '2026-11-25' };
    const [disk, memory] = [
      await parseCaseload([{ name: 'children.csv', path }], options),
      await parseCaseload([{ name: 'children.csv', bytes }], options),
    ];
    expect(disk).toEqual(memory);
    expect(disk.caseload.children).toEqual(children);
    expect(disk.refused.map(({ row }) => row)).toEqual([9003]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it('a file whose quotation marks quote nothing, and one in another encoding, are read over their pieces too', () => {
  const inches = `name,size\n${'Ada,5" brace\n'.repeat(40_000)}Bo,7"\n`;
  const rows = [...readTable('list.csv', new TextEncoder().encode(inches)).rows];
  expect(rows.length).toBe(40_001);
  expect(rows.at(-1)).toEqual({ row: 40_002, cells: ['Bo', '7"'] });
  const western = Buffer.from(`name,size\n${'Z\u00fcrich,5\n'.repeat(40_000)}`, 'latin1');
  expect([...readTable('list.csv', western).rows].at(-1)?.cells).toEqual(['Zürich', '5']);
});

it('a clinic\u2019s own list is refused in words above the lines that are looked at together', async () => {
  const list = (lines: number) => ({
    name: 'list.csv',
    bytes: new TextEncoder().encode(`Name,DOB,Foot L\n${'Ada,3/2/2019,17\n'.repeat(lines)}`),
  });
  await expect(parseCaseload([list(MOST_LINES + 1)], { today: '2026-11-25' })).rejects.toMatchObject({
    code: 'too-large',
    place: { file: 'list.csv', accepted: expect.stringContaining('in parts') },
  });
});
