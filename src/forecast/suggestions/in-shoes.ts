import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import type { MeasureId, Side } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';

/** A foot and a stature that both rise by so much more than growth does between two visits were taken in shoes, or by another instrument (common practice, no source). */
const FOOT_MM = 8;
const STATURE_MM = 10;
/** The most that growth adds in a year: a toddler's foot 20 mm, stature in the spurt or before two 120 mm. */
const FOOT_A_YEAR = 20;
const STATURE_A_YEAR = 120;

/** The foot reading of the last visit, where foot and stature jumped together since the visit before; else null. */
export function inShoes(record: ChildRecord): { measure: MeasureId; side: Side; date: IsoDate } | null {
  const feet = byDate(record, 'foot_length');
  const last = feet.at(-1);
  if (!last) return null;
  const jumped = (measure: MeasureId, atLeast: number, aYear: number, side?: Side) => {
    const rows = byDate(record, measure).filter((m) => side === undefined || m.side === side);
    const now = rows.findLast((m) => m.date === last.date);
    const before = rows.findLast((m) => m.date < last.date);
    if (!now || !before) return false;
    return now.value - before.value > atLeast + (aYear * daysBetween(before.date, now.date)) / 365.25;
  };
  return jumped('foot_length', FOOT_MM, FOOT_A_YEAR / 2, last.side) &&
    jumped('stature', STATURE_MM, STATURE_A_YEAR / 2)
    ? { measure: 'foot_length', side: last.side, date: last.date }
    : null;
}

const byDate = (record: ChildRecord, measure: MeasureId): Measurement[] =>
  record.measurements
    .filter((m) => m.measure === measure)
    .sort((a, b) => dayNumber(a.date) - dayNumber(b.date));
