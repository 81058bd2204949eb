import { deviceDays, isField, type Meaning } from '../headings/meaning.js';
import type { FieldId } from '../headings/vocabulary.js';
import { headingDay } from '../headings/written-age.js';
import type { SheetTable } from './grid.js';
import { uniqueKey } from './unique-key.js';

/** What a column was taken for, before anybody is asked. */
interface Taken {
  readonly index: number;
  readonly meaning: Meaning;
}

/** Which day the sizes of a column are of: a date in its heading, else the nearest date to its left, else the row's. */
export function dayOf(table: SheetTable, taken: readonly Taken[]): (index: number) => string {
  const of = (field: FieldId) =>
    taken.filter(({ meaning }) => isField(meaning, field)).map(({ index }) => index);
  const dates = of('visit.date');
  const days = dates.length > 0 ? dates : of('visit.age');
  return (index) =>
    headingDay(table.headings[index]) ??
    (days.length > 1 ? `${Math.max(-1, ...days.filter((day) => day < index))}` : '');
}

/**
 * Columns that would give one child two different sizes of one measure, side and day, with what is likely instead: 'Foot L
 * first visit' beside 'Foot L' with one date in the row. Which is of that day only the clinic can say.
 */
export function sameDayTwice(
  table: SheetTable,
  taken: readonly Taken[],
): ReadonlyMap<number, Meaning | null> {
  const day = dayOf(table, taken);
  const byDay = new Map<string, number[]>();
  for (const { index, meaning } of taken) {
    const one = uniqueKey(meaning);
    if (meaning.kind !== 'reading' || one === null) continue;
    const key = `${one} ${day(index)}`;
    byDay.set(key, [...(byDay.get(key) ?? []), index]);
  }
  const [visit, ...others] = taken.filter(({ meaning }) => isField(meaning, 'visit.date'));
  const begin = visit === undefined || others.length > 0 ? null : firstBlock(byDay, visit.index);
  if (begin !== null) return beforeVisit(taken, begin, visit.index);
  return differing(table, byDay);
}

/** Columns of one size and day that differ in a row, none of them to be taken unasked. */
function differing(
  table: SheetTable,
  byDay: ReadonlyMap<string, readonly number[]>,
): ReadonlyMap<number, null> {
  const differ = ([a, b]: readonly [number, number]) =>
    table.rows.some(({ cells }) => cells[a] && cells[b] && cells[a] !== cells[b]);
  const twice = new Map<number, null>();
  for (const of of byDay.values())
    for (const [n, a] of of.entries())
      for (const b of of.slice(n + 1)) if (differ([a, b])) twice.set(a, null).set(b, null);
  return twice;
}

/** Where the sizes before a day begin, where each that comes twice stands once before it and once after; else null. */
function firstBlock(byDay: ReadonlyMap<string, readonly number[]>, day: number): number | null {
  const pairs = [...byDay.values()].filter((of) => of.length > 1);
  const apart = pairs.every(([a, b, ...more]) => more.length === 0 && a < day && b > day);
  return pairs.length > 0 && apart ? Math.min(...pairs.map(([a]) => a)) : null;
}

/**
 * Of the same sizes before and after the one day of visits those after it are of that day. All before it are of another:
 * likely the cast's, where that stands before them.
 */
function beforeVisit(taken: readonly Taken[], from: number, to: number): ReadonlyMap<number, Meaning | null> {
  const cast = taken.some(({ index, meaning }) => isField(meaning, deviceDays.cast) && index < from);
  return new Map(
    taken.flatMap(({ index, meaning }) =>
      meaning.kind === 'reading' && index >= from && index < to
        ? [[index, cast ? { ...meaning, at: 'cast' as const } : null]]
        : [],
    ),
  );
}

/** 'Foot at cast' in a sheet that has visits and no column for the cast: of the visit's day, once somebody agrees. */
export function withoutDay(meaning: Meaning, taken: readonly Taken[]): Meaning | null {
  if (meaning.kind !== 'reading' || meaning.at === null) return null;
  const field = deviceDays[meaning.at];
  const has = (id: FieldId) => taken.some((of) => isField(of.meaning, id));
  return !has(field) && has('visit.date') ? { ...meaning, at: null } : null;
}
