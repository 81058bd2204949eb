import { deviceDays, type Meaning } from '../headings/meaning.js';
import { headingDate } from '../headings/written-date.js';
import type { SheetTable } from './grid.js';
import { uniqueKey } from './unique-key.js';

/** What a column was taken for, before anybody is asked. */
interface Taken {
  readonly index: number;
  readonly meaning: Meaning;
}

/** Which day the sizes of a column are of: a date in its heading, else the nearest date to its left, else the row's. */
export function dayOf(table: SheetTable, taken: readonly Taken[]): (index: number) => string {
  const of = (field: string) =>
    taken
      .filter(({ meaning }) => meaning.kind === 'field' && meaning.field === field)
      .map(({ index }) => index);
  const dates = of('visit.date');
  const days = dates.length > 0 ? dates : of('visit.age');
  return (index) =>
    headingDate(table.headings[index]) ??
    (days.length > 1 ? `${Math.max(-1, ...days.filter((day) => day < index))}` : '');
}

/**
 * Columns that would give one child two different sizes of one measure, side and day: 'Foot L first visit' beside
 * 'Foot L' with one date in the row. Which is of that day only the clinic can say.
 */
export function sameDayTwice(table: SheetTable, taken: readonly Taken[]): ReadonlySet<number> {
  const day = dayOf(table, taken);
  const byDay = new Map<string, number[]>();
  for (const { index, meaning } of taken) {
    if (meaning.kind !== 'reading') continue;
    const key = `${uniqueKey(meaning)} ${day(index)}`;
    byDay.set(key, [...(byDay.get(key) ?? []), index]);
  }
  const differ = ([a, b]: readonly [number, number]) =>
    table.rows.some(({ cells }) => cells[a] && cells[b] && cells[a] !== cells[b]);
  const twice = new Set<number>();
  for (const of of byDay.values())
    for (const [n, a] of of.entries())
      for (const b of of.slice(n + 1)) if (differ([a, b])) twice.add(a).add(b);
  return twice;
}

/** 'Foot at cast' in a sheet that has visits and no column for the cast: of the visit's day, once somebody agrees. */
export function withoutDay(meaning: Meaning, taken: readonly Taken[]): Meaning | null {
  if (meaning.kind !== 'reading' || meaning.at === null) return null;
  const field = deviceDays[meaning.at];
  const has = (id: string) => taken.some((t) => t.meaning.kind === 'field' && t.meaning.field === id);
  return !has(field) && has('visit.date') ? { ...meaning, at: null } : null;
}
