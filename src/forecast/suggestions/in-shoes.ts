import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { DAYS_A_YEAR, dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import { type MeasureId, type Side, technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';

/** A foot and a stature that both rise by so much more than growth does between two visits were taken in shoes, or by another instrument (common practice, no source). */
const FOOT_MM = 8;
const STATURE_MM = 10;
/** A foot alone must jump by so many technical errors beyond the fastest growth. */
const ALONE_ERRORS = 4;
/** Both feet together by so many, from an age at which no foot grows faster. */
const BOTH_ERRORS = 2.5;
const BOTH_FROM_YEARS = 2;
/** The most that growth adds in a year: a toddler's foot 20 mm, stature in the spurt or before two 120 mm. */
const FOOT_A_YEAR = 20;
const STATURE_A_YEAR = 120;

/** The foot reading of the last visit, where it jumped since the visit before as no foot grows, or both feet or foot and stature jumped together; else null. */
export function inShoes(
  record: Pick<ChildRecord, 'child' | 'measurements'>,
): { measure: MeasureId; side: Side; date: IsoDate } | null {
  const last = byDate(record, 'foot_length').at(-1);
  if (!last) return null;
  const jumped = (measure: MeasureId, atLeast: number, aYear: number, side?: Side) => {
    const rows = byDate(record, measure).filter((m) => side === undefined || m.side === side);
    const now = rows.findLast((m) => m.date === last.date);
    const before = rows.findLast((m) => m.date < last.date);
    if (!now || !before) return false;
    return now.value - before.value > atLeast + (aYear * daysBetween(before.date, now.date)) / DAYS_A_YEAR;
  };
  const age = decimalAgeYears(record.child.birthDate, last.date);
  const error = technicalErrorAt('foot_length', age);
  const bothJumped = (['left', 'right'] as const).every((side) =>
    jumped('foot_length', BOTH_ERRORS * error, FOOT_A_YEAR, side),
  );
  return jumped('foot_length', ALONE_ERRORS * error, FOOT_A_YEAR, last.side) ||
    (age >= BOTH_FROM_YEARS && bothJumped) ||
    (jumped('foot_length', FOOT_MM, FOOT_A_YEAR / 2, last.side) &&
      jumped('stature', STATURE_MM, STATURE_A_YEAR / 2))
    ? { measure: 'foot_length', side: last.side, date: last.date }
    : null;
}

const byDate = (record: Pick<ChildRecord, 'measurements'>, measure: MeasureId): Measurement[] =>
  record.measurements
    .filter((m) => m.measure === measure)
    .sort((a, b) => dayNumber(a.date) - dayNumber(b.date));
