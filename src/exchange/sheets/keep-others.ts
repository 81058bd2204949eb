import type { Measurement } from '../../records/records.js';
import { isField } from '../headings/meaning.js';
import type { MadeRow } from './canonical.js';
import type { ChildRows } from './child-rows.js';
import { type Column, cellOf, columnName } from './column.js';
import type { GridRow } from './grid.js';
import { type MadeReadings, NO_EXTRA } from './measurement-records.js';
import { fieldColumns, type PersonRow } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';

/** Cells nobody reads are kept: with the child, or where a child has several rows with the row's first record. */
export function keepOthers(
  taken: TakenTable,
  rows: readonly PersonRow[],
  readings: MadeReadings,
  devices: ReadonlyMap<GridRow, MadeRow>,
  children: ChildRows,
): void {
  const kept = taken.columns.filter((c) => c.cells > 0 && isKept(c, taken));
  if (kept.length === 0) return;
  const count = rowsOfEach(rows);
  for (const { row, person } of rows) {
    if (person === null) continue;
    const isOneOfSeveral = (count.get(person.id) ?? 0) > 1;
    const [reading, device] = isOneOfSeveral ? [readings.firstOfRow.get(row.row), devices.get(row)] : [];
    for (const [column, text] of filled(kept, row)) {
      if (!isSaidElsewhere(column, text, taken)) taken.left.keep(row, column, text);
      const heading = columnName(column).replace(/^extra:/, '');
      if (!keptWithRow(reading, device, heading, text)) children.keep(person.id, heading, text);
    }
  }
}

const filled = (columns: readonly Column[], row: GridRow): (readonly [Column, string])[] =>
  columns.map((column) => [column, cellOf(row, column)] as const).filter(([, text]) => text !== '');

/** A question waits for it, or devices were made of it; an age beside a day; a shoe size that is accounted for among the readings. */
const isSaidElsewhere = ({ meaning }: Column, text: string, { heard }: TakenTable): boolean =>
  meaning === null || heard.has(text) || isField(meaning, 'visit.age') || isField(meaning, 'shoe.size');

const isKept = (c: Column, taken: TakenTable): boolean =>
  c.meaning === null || c.meaning.kind === 'keep' || c.meaning.kind === 'remark' || unread(c, taken);

/** How many rows each child has, by its id. */
function rowsOfEach(rows: readonly PersonRow[]): ReadonlyMap<string, number> {
  const count = new Map<string, number>();
  for (const { person } of rows) if (person) count.set(person.id, (count.get(person.id) ?? 0) + 1);
  return count;
}

/** Kept with the first reading of a row, else with its device; false where it has neither. */
function keptWithRow(
  reading: Measurement | undefined,
  device: MadeRow | undefined,
  heading: string,
  text: string,
): boolean {
  if (reading) {
    if (reading.extra === NO_EXTRA) reading.extra = {};
    reading.extra[heading] = text;
  } else if (device) (device.cells as Record<string, string>)[`extra:${heading}`] = text;
  return reading !== undefined || device !== undefined;
}

/** Fields that are understood and that nothing reads in this sheet: a verdict without a device, a shoe size. */
function unread(column: Column, taken: TakenTable): boolean {
  if (column.meaning?.kind !== 'field') return false;
  const { field } = column.meaning;
  if (field === 'shoe.size') return true;
  const devices = taken.columns.some(
    (c) => c.meaning?.kind === 'device' || isField(c.meaning, 'device.family'),
  );
  if (/^device\.(verdict|status|footplate|replaces|end_date|end_reason)$/.test(field)) return !devices;
  return field === 'visit.age' && fieldColumns(taken.columns, 'visit.date').length > 0;
}
