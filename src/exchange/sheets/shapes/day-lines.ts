import { headingCandidates } from '../../headings/heading-meaning.js';
import { cellDate } from '../cell-date.js';
import type { SheetTable } from '../grid.js';

/** The day a line holds and nothing else: '12/01/2026', 'Clinic 12/01/2026'; null for any other line. */
function dayOf(cells: readonly string[]): string | null {
  const filled = cells.filter((cell) => cell !== '');
  if (filled.length !== 1 || filled[0].length > 40) return null;
  const written =
    /\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[-/.]\s?\d{1,2}[-/.]\s?\d{2,4}/.exec(filled[0])?.[0] ?? filled[0];
  return cellDate(written, '2099-12-31') === null ? null : written;
}

const saysDay = (heading: string): boolean =>
  headingCandidates(heading).some(
    ({ meaning }) => meaning.kind === 'field' && meaning.field === 'visit.date',
  );

/** A diary: the day on a line of its own, the children seen that day below it. The day becomes a column. */
export function withDayLines(table: SheetTable): SheetTable {
  if (table.headings.some(saysDay) || table.headings.filter((h) => h !== '').length < 3) return table;
  const days = table.rows.map(({ cells }) => dayOf(cells));
  if (days[0] === null) return table;
  let day = '';
  const width = table.headings.length;
  const rows = table.rows.flatMap(({ row, cells }, n) => {
    day = days[n] ?? day;
    const own = Array.from({ length: width }, (_, at) => cells[at] ?? '');
    return days[n] === null ? [{ row, cells: [...own, day] }] : [];
  });
  return { ...table, headings: [...table.headings, 'Date'], rows };
}
