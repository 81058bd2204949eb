import { z } from 'zod';
import { measureIds } from '../../records/measure.js';
import { nearestWord } from '../nearest-word.js';
import { columnOf, columns, plainWord, type TableName, tableNames } from './columns.js';
import { deviceSizeHeading } from './device-size-heading.js';
import { measureHeading } from './measure-names.js';
import type { TextTable } from './read-table.js';
import { tableLayout } from './row-reader.js';

/** A table as doorpost itself writes it, or one of events, markers, jobs or skin checks: read by its column names. */
export function isOwnTable(text: TextTable): boolean {
  if (text.table !== undefined) return true;
  const headings = new Set(text.headings.map(plainWord));
  if (isOwnVisits(headings)) return true;
  return tableNames.some((table) => {
    const all = columns[table];
    // What a record need not even carry came later than files that are still about.
    const later = (schema: z.ZodType) => schema instanceof z.ZodOptional;
    if (all.every(({ name, schema }) => headings.has(name) || later(schema))) return true;
    if (table === 'children' || table === 'measurements' || table === 'devices') return false;
    // 'Device' and 'Date' head many a clinic's list: only our own names, or the file's, make it one of our tables.
    const own = all.every(({ name, required }) => !required || headings.has(name));
    return (own || plainWord(text.file).split('_').includes(table)) && tableOf(text) === table;
  });
}

/** A row a visit with a column a measure, every heading of our own writing and with its unit: nothing to ask about. */
const isOwnVisits = (headings: ReadonlySet<string>): boolean =>
  ['child_id', 'date'].every((name) => headings.has(name)) &&
  !headings.has('measure') &&
  [...headings].every(
    (heading) =>
      columns.measurements.some(({ name }) => name === heading) || Boolean(measureHeading(heading)?.unit),
  );

/** Which table a file holds: by its name (events.csv, 2024-events.csv), else by the headings it carries; null for none. */
export function tableOf(text: TextTable): TableName | null {
  if (text.table !== undefined) return text.table;
  const headings = new Set(text.headings.map(plainWord));
  const written = tableNames.find((table) => columns[table].every(({ name }) => headings.has(name)));
  if (written) return written;
  const name = plainWord(text.file);
  const byName = tableNames.filter((table) => name.split('_').includes(table));
  const fitting = tableNames.filter((table) => {
    const has = new Set(text.headings.map((heading) => columnOf(table, heading)?.name));
    return columns[table].every((column) => !column.required || has.has(column.name));
  });
  if (byName.length === 1) return fitting.includes(byName[0]) ? byName[0] : null;
  const needed = (table: TableName) => columns[table].filter((c) => c.required).length;
  return fitting.sort((a, b) => needed(b) - needed(a))[0] ?? null;
}

/** Tells which columns were kept but not read, and what a mistyped one may have meant. */
export function unreadColumns(table: TableName, text: TextTable): string[] {
  const known = columns[table].flatMap(({ name, aliases }) => [name, ...aliases]);
  const unread = tableLayout(table, text)
    .others.map(({ heading }) => heading)
    .filter((heading) => !heading.startsWith('extra:') && !isSizeHeading(table, heading));
  if (unread.length === 0) return [];
  const words = unread.map((heading) => {
    const near = nearestWord(plainWord(heading), [
      ...known,
      ...(table === 'measurements' ? measureHeadings(heading) : []),
    ]);
    return near ? `"${heading}" (was ${near} meant?)` : `"${heading}"`;
  });
  return [`${text.file}: kept but not read: ${words.join(', ')}.`];
}

function isSizeHeading(table: TableName, heading: string): boolean {
  const word = plainWord(heading);
  if (table === 'measurements')
    return measureHeading(heading) !== null || /^(value|reading|size)_/.test(word);
  return table === 'devices' && deviceSizeHeading(heading) !== null;
}

/** The measures with the side and unit a mistyped heading ends in: 'foot_lenght_left_cm' -> 'foot_length_left_cm'. */
function measureHeadings(heading: string): string[] {
  const ending = /((?:_(?:left|right|l|r|mm|cm|m|in|inch|kg))*)$/.exec(plainWord(heading))?.[1] ?? '';
  return measureIds.map((id) => id + ending);
}
