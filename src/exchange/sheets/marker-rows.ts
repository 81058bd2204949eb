import type { IsoDate } from '../../records/dates.js';
import { contentId } from '../csv/content-id.js';
import type { MadeRow } from './canonical.js';
import { cellAge } from './cell-date.js';
import { saysNothing } from './cell-words.js';
import { dateOf } from './choose-dates.js';
import { type Column, cellOf } from './column.js';
import type { GridRow } from './grid.js';
import type { TakenTable } from './taken-table.js';

const ACCEPTED = 'a stage with the date of the visit, or a date';

/** Signs of maturity in a row. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one sign of maturity after another, each read in its own way
export function markersIn(
  taken: TakenTable,
  row: GridRow,
  childId: string,
  dateFor: (column: Column) => IsoDate | null,
): MadeRow[] {
  const rows: MadeRow[] = [];
  for (const column of taken.columns) {
    if (column.meaning?.kind !== 'field' || !column.meaning.field.startsWith('marker.')) continue;
    const text = cellOf(row, column);
    if (text === '' || saysNothing(text)) continue;
    const kind = column.meaning.field.slice('marker.'.length).replace('_', '-');
    const roman = /^[ivIV]+$/.test(text)
      ? { i: 1, ii: 2, iii: 3, iv: 4, v: 5 }[text.toLowerCase()]
      : undefined;
    const when = kind === 'menarche' ? dateOf(text, taken.orders.get(column.index), taken.desk.today) : null;
    const visit = kind === 'menarche' ? null : dateFor(column);
    const date = when && 'date' in when ? when.date : visit;
    const read = kind === 'bone-age' ? cellAge(text) : (roman ?? /\d/.exec(text)?.[0] ?? null);
    const value = kind === 'menarche' ? '0' : read;
    if (date === null || value === null) {
      if (!(kind === 'menarche' && /^(no|n|nein|non|nee)$/i.test(text)))
        taken.refuse(row, column, date === null ? 'has no date' : 'is no such stage', ACCEPTED);
      continue;
    }
    taken.left.mark(row, column);
    rows.push({
      row: row.row,
      cells: {
        id: contentId('k', childId, date, kind, String(value)),
        child_id: childId,
        date,
        kind,
        value: String(value),
      },
      places: { value: { column: column.heading, given: text } },
    });
  }
  return rows;
}
