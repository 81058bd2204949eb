import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import { addMonthsIso } from './calendar.js';
import type { RecallSettings } from './recall-settings.js';

/** Last day this child was measured, a device judged, adjusted or fitted; null when never. */
export function lastSeen(record: ChildRecord, today: IsoDate): IsoDate | null {
  const dates = [
    ...record.measurements.map((m) => m.date),
    ...record.events.filter((e) => e.kind !== 'broken').map((e) => e.date),
    ...record.devices.flatMap((d) => (d.fittedDate ? [d.castDate, d.fittedDate] : [d.castDate])),
  ].filter((d) => d <= today);
  return latest(dates);
}

/** Last day anything was measured; null when never. */
export const lastMeasured = (record: ChildRecord, today: IsoDate): IsoDate | null =>
  latest(record.measurements.map((m) => m.date).filter((d) => d <= today));

/** When the usual review falls due; `today` for a child never seen. */
export function reviewDue(
  record: ChildRecord,
  today: IsoDate,
  settings: RecallSettings,
  adult: boolean,
): IsoDate {
  const seen = lastSeen(record, today);
  if (seen === null) return today;
  if (adult) return addMonthsIso(seen, settings.wearReviewMonths);
  const age = decimalAgeYears(record.child.birthDate, today);
  const row = settings.reviewMonths.find((r) => age < r.belowYears) ?? settings.reviewMonths.at(-1)!;
  const months = record.child.insensateSkin
    ? Math.min(row.months, settings.reviewMonthsInsensate)
    : row.months;
  return addMonthsIso(seen, months);
}

const latest = (dates: readonly IsoDate[]): IsoDate | null => [...dates].sort().at(-1) ?? null;
