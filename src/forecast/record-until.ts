import type { ChildRecord } from '../records/caseload.js';
import { type IsoDate, isIsoDate } from '../records/dates.js';

/** The record as it stood at the end of `today`: rows dated later say nothing yet. */
export function recordUntil(record: ChildRecord, today: IsoDate): ChildRecord {
  const known = <T extends { date: IsoDate }>(rows: readonly T[]) => rows.filter((r) => r.date <= today);
  const devices = record.devices.filter((d) => d.castDate <= today);
  return {
    ...record,
    measurements: known(record.measurements),
    markers: known(record.markers),
    skinChecks: known(record.skinChecks),
    devices: devices.map((d) => (d.fittedDate && d.fittedDate > today ? { ...d, fittedDate: null } : d)),
    events: known(record.events),
  };
}

/** A child's extra columns that hold the dates growth hormone was started and ended. */
export const growthHormoneColumns = { start: 'growth_hormone_start', end: 'growth_hormone_end' } as const;

/** Date growth hormone was started; null when none. */
export const growthHormoneStart = (record: ChildRecord): IsoDate | null =>
  dateIn(record, growthHormoneColumns.start);

/** Date it was ended; null while it goes on. */
export const growthHormoneEnd = (record: ChildRecord): IsoDate | null =>
  dateIn(record, growthHormoneColumns.end);

function dateIn(record: ChildRecord, column: string): IsoDate | null {
  const text = record.child.extra[column] ?? '';
  return isIsoDate(text) ? text : null;
}
