import { fieldHeaded, headingCandidates } from '../../headings/heading-meaning.js';
import { isField } from '../../headings/meaning.js';
import { cellDate, isDay } from '../cell-date.js';
import type { GridRow, SheetTable } from '../grid.js';

/** The day a line holds and nothing else: '12/01/2026', 'Clinic 12/01/2026'; null for any other line. */
function dayOf(cells: readonly string[]): string | null {
  const filled = cells.filter((cell) => cell !== '');
  if (filled.length !== 1 || filled[0].length > 40) return null;
  const written =
    /\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[-/.]\s?\d{1,2}[-/.]\s?\d{2,4}/.exec(filled[0])?.[0] ?? filled[0];
  return !isDay(written) ? null : written;
}

/** 'MARCH 2025' over rows with days of their own sorts them and dates nothing. */
const isMonth = (day: string): boolean => cellDate(day, '2099-12-31')?.monthOnly ?? false;
const hasDays = ({ headings, rows }: SheetTable): boolean =>
  headings.some((heading, at) => {
    const field = fieldHeaded(heading);
    const dated = field.startsWith('device.') && field.endsWith('_date');
    return dated && rows.some(({ cells }) => isDay(cells[at] ?? ''));
  });
const saysDay = (heading: string): boolean =>
  headingCandidates(heading).some(({ meaning }) => isField(meaning, 'visit.date'));

/** A diary: the day on a line of its own, the children seen that day below it. The day becomes a column. */
export function withDayLines(table: SheetTable): SheetTable {
  if (table.headings.some(saysDay) || table.headings.filter((h) => h !== '').length < 3) return table;
  const days = table.rows.map(({ cells }) => (cells[0] ? dayOf(cells) : null));
  // The first day may stand over the headings, which are printed again for every day.
  let day = days[0] ?? table.titles.map((title) => dayOf([title])).findLast((title) => title !== null) ?? '';
  if (day === '' || days.every((d) => d === null)) return table;
  if (days.every((d) => d === null || isMonth(d)) && hasDays(table)) return table;
  const printed = new Set(table.headings);
  const again = ({ cells }: GridRow) => cells.every((cell) => printed.has(cell) || cell === '');
  const width = table.headings.length;
  const rows = table.rows.flatMap((line, n) => {
    const { row, cells } = line;
    day = days[n] ?? day;
    if (again(line)) return [];
    const own = Array.from({ length: width }, (_, at) => cells[at] ?? '');
    return days[n] === null ? [{ row, cells: [...own, day] }] : [];
  });
  return { ...table, headings: [...table.headings, 'Date'], rows };
}
