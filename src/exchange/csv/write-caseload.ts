import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { stringify } from 'csv-stringify/sync';
import type { Caseload } from '../../records/caseload.js';
import type { Device } from '../../records/device.js';
import { measureIds, measures } from '../../records/measure.js';
import { columnOf, columns, plainWord, type TableName, tableNames } from './columns.js';
import { deviceSizeHeading, deviceSizes } from './device-size-heading.js';
import { measureHeading } from './measure-names.js';
import { weekdayWords } from './read-children.js';
import { safeCell } from './row-reader.js';

type Cell = string | number | boolean | null;
type Row = Readonly<Record<string, Cell>>;

/**
 * The tables of a caseload as CSV text by file name, in the columns doorpost reads: reading them back gives the
 * same caseload. UTF-8 with byte order mark, so that spreadsheets show accents right; lengths in mm.
 */
export function csvTables(caseload: Caseload): Record<`${TableName}.csv`, string> {
  const rows = tableRows(caseload);
  return Object.fromEntries(tableNames.map((table) => [`${table}.csv`, csvText(rows[table])])) as Record<
    `${TableName}.csv`,
    string
  >;
}

/** Writes all tables into a folder; each appears whole or not at all. */
export async function writeCaseload(folder: string, caseload: Caseload): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  return Promise.all(
    Object.entries(csvTables(caseload)).map(async ([name, text]) => {
      const path = join(folder, name);
      await writeFile(`${path}.part`, text);
      await rename(`${path}.part`, path);
      return path;
    }),
  );
}

/** Rows with the columns of their table first, in its order. */
function tableRows(caseload: Caseload): Record<TableName, { headings: string[]; rows: Row[] }> {
  const table = <R extends object>(name: TableName, records: readonly R[], more?: (record: R) => Row) => {
    const known = columns[name].map((column) => column.name);
    const rows = records.map((record) => ({ ...ownCells(name, record), ...more?.(record) }));
    return { headings: [...known, ...moreHeadings(known, rows)], rows };
  };
  return {
    children: table('children', caseload.children, (c) => extraCells('children', c.extra)),
    measurements: table('measurements', caseload.measurements, (m) => ({
      unit: measures[m.measure].unit,
      ...extraCells('measurements', m.extra),
    })),
    devices: table('devices', caseload.devices, (d) => ({
      ...sizeCells(d),
      ...extraCells('devices', d.extra),
    })),
    events: table('events', caseload.events),
    markers: table('markers', caseload.markers),
    skin: table('skin', caseload.skinChecks),
    jobs: table(
      'jobs',
      caseload.jobs.map((job) => ({ ...job, ...job.stages })),
    ),
  };
}

const ownCells = (table: TableName, record: object): Row =>
  Object.fromEntries(columns[table].map(({ name, field }) => [name, cellOf(Reflect.get(record, field))]));

/** A field as its cell: a tick as a word, a list with bars between, of weekdays their names. */
function cellOf(value: unknown): Cell {
  if (typeof value === 'boolean') return yesNo(value);
  if (Array.isArray(value))
    return value.map((one) => (typeof one === 'number' ? weekdayWords[one - 1] : one)).join(' | ');
  return (value ?? null) as Cell;
}

const yesNo = (value: boolean): string => (value ? 'yes' : 'no');

function moreHeadings(headings: readonly string[], rows: readonly Row[]): string[] {
  const known = new Set(headings);
  return [...new Set(rows.flatMap((row) => Object.keys(row)))].filter((heading) => !known.has(heading));
}

/** Columns of a clinic's own; one whose heading doorpost would read as its own column is written 'extra:...'. */
function extraCells(table: TableName, extra: Readonly<Record<string, string>>): Row {
  return Object.fromEntries(
    Object.entries(extra).map(([heading, text]) => [
      readAsOwn(table, heading) ? `extra:${heading}` : heading,
      text,
    ]),
  );
}

function readAsOwn(table: TableName, heading: string): boolean {
  return (
    heading.trim() === '' ||
    columnOf(table, heading) !== null ||
    measureHeading(heading) !== null ||
    deviceSizeHeading(heading) !== null ||
    /^(value|reading|size)_/.test(plainWord(heading)) ||
    heading.startsWith('extra:')
  );
}

function sizeCells(device: Device): Row {
  return Object.fromEntries(
    Object.entries(deviceSizes).flatMap(([size, field]) =>
      measureIds
        .filter((id) => device[field][id] !== undefined)
        .map((id) => [`${size}_${id}_mm`, device[field][id] as number]),
    ),
  );
}

function csvText({ headings, rows }: { headings: string[]; rows: Row[] }): string {
  const lines = rows.map((row) =>
    headings.map((heading) => cellText(Object.hasOwn(row, heading) ? row[heading] : null)),
  );
  return stringify([headings.map(safeCell), ...lines], {
    bom: true,
    record_delimiter: 'windows',
    quoted_match: /^\s|\s$|[\r\n;\t|]/,
  });
}

function cellText(cell: Cell): string {
  return typeof cell === 'string' ? safeCell(cell) : String(cell ?? '');
}
