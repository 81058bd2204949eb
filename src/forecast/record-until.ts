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

/** Date growth hormone was started, from the child's extra column `growth_hormone_start`; null when none. */
export const growthHormoneStart = (record: ChildRecord): IsoDate | null =>
  dateIn(record, 'growth_hormone_start');

/** Date it was ended, from `growth_hormone_end`; null while it goes on. */
export const growthHormoneEnd = (record: ChildRecord): IsoDate | null => dateIn(record, 'growth_hormone_end');

function dateIn(record: ChildRecord, column: string): IsoDate | null {
  const text = record.child.extra[column] ?? '';
  return isIsoDate(text) ? text : null;
}
