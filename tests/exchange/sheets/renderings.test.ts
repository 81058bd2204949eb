import fc from 'fast-check';
import { expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { type NamedFile, parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { takenText } from './read-list.js';

/** One tidy table of invented children; sizes in mm, days as ISO dates. */
const HEADINGS = [
  'Name',
  'Date of birth',
  'Sex',
  'Date seen',
  'Foot L',
  'Foot R',
  'Calf girth L',
  'Device',
  'Cast date',
];
const ROWS = [
  ['Zoë Müller', '2017-06-23', 'f', '2026-01-14', '188', '190', '248', 'solid AFO left', '2026-01-14'],
  ['Theo Pike', '2013-11-19', 'm', '2026-01-20', '231', '229', '291', 'KAFO right', '2026-01-21'],
  ['Una Reed', '2019-08-30', 'f', '2026-01-27', '152', '153', '212', '', ''],
  ['Zoë Müller', '2017-06-23', 'f', '2026-07-16', '194', '195', '252', '', ''],
];
type Written = (cell: string, heading: string) => string;
type Table = readonly (readonly string[])[];

const isDate = (cell: string) => /^\d{4}-/.test(cell);
const isSize = (cell: string) => /^\d{3}$/.test(cell);
const dotted: Written = (cell) => (isDate(cell) ? cell.split('-').reverse().join('.') : cell);
const named: Written = (cell) =>
  isDate(cell)
    ? `${Number(cell.slice(8))} ${['Jan', 'Jun', 'Jul', 'Aug', 'Nov'][['01', '06', '07', '08', '11'].indexOf(cell.slice(5, 7))]} ${cell.slice(0, 4)}`
    : cell;
const inCm =
  (point: string, unit = ''): Written =>
  (cell) =>
    isSize(cell) ? `${cell.slice(0, 2)}${point}${cell.slice(2)}${unit}` : cell;
const surnameFirst: Written = (cell, heading) =>
  heading === 'Name' ? cell.split(' ').reverse().join(', ') : cell;
const quoted = (cell: string, mark: string) => (cell.includes(mark) ? `"${cell}"` : cell);

const text =
  (mark: string, writes: readonly Written[], encoding: BufferEncoding = 'utf8', before = '', after = '') =>
  (table: Table): NamedFile => {
    const [headings, ...rows] = table;
    const cells = rows.map((row) =>
      row.map((cell, at) => writes.reduce((now, write) => write(now, headings[at]), cell)),
    );
    const lines = [headings, ...cells].map((row) => row.map((cell) => quoted(cell, mark)).join(mark));
    return { name: 'list.csv', bytes: Buffer.from(`${before}${lines.join('\r\n')}\r\n${after}`, encoding) };
  };
const workbook = async (table: Table): Promise<NamedFile> => {
  const data = table.map((row) =>
    row.map((cell) =>
      isDate(cell)
        ? { type: Date, value: new Date(`${cell}T12:00:00Z`), format: 'dd/mm/yyyy' }
        : isSize(cell)
          ? { type: Number, value: Number(cell) }
          : { type: String, value: cell },
    ),
  );
  const bytes = await writeXlsxFile([{ data, sheet: 'List' }] as never).toBuffer();
  return { name: 'list.xlsx', bytes: new Uint8Array(bytes) };
};

const renderings: Readonly<Record<string, (table: Table) => NamedFile | Promise<NamedFile>>> = {
  'comma, ISO dates, mm': text(',', []),
  'semicolon, decimal comma, dotted days': text(';', [inCm(','), dotted]),
  'tab, months by name': text('\t', [inCm('.'), named]),
  bar: text('|', [dotted]),
  'UTF-16': text('\t', [], 'utf16le', '\ufeff'),
  'byte order mark': text(';', [dotted], 'utf8', '\ufeff'),
  'Windows-1252': text(';', [inCm(',')], 'latin1'),
  'units in cells, surname first': text(',', [inCm('.', ' cm'), surnameFirst]),
  'title, blank line and total': text(
    ',',
    [named],
    'utf8',
    'Caseload of the clinic\r\n\r\n',
    '\r\nTotal,4\r\n',
  ),
  workbook: workbook,
};

it('takes the same from a table however its columns stand and however it is written', async () => {
  const expected = takenText(
    await parse(await renderings['comma, ISO dates, mm']([HEADINGS, ...ROWS])),
  ).sort();
  expect(expected.filter((line) => line.startsWith('reading'))).toHaveLength(12);
  const order = fc.shuffledSubarray([...HEADINGS.keys()], { minLength: HEADINGS.length });
  await fc.assert(
    fc.asyncProperty(order, fc.constantFrom(...Object.keys(renderings)), async (columns, name) => {
      const table = [HEADINGS, ...ROWS].map((row) => columns.map((at) => row[at]));
      expect(takenText(await parse(await renderings[name](table))).sort()).toEqual(expected);
    }),
    { numRuns: 60, seed: 7 },
  );
});

const parse = (file: NamedFile) => parseCaseload([file], { today: '2026-11-25', takeProbable: true });
