import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import { hasHipAngle } from '../../records/hip-angle.js';

/** What is broken or lost is told on the telephone, and so may be a note without a word on the fit. */
const seen = (e: DeviceEvent): boolean =>
  e.kind === 'verdict' ? e.verdict !== null || hasHipAngle(e) : e.kind !== 'broken' && e.kind !== 'lost';

/** The last day on which this child was measured, a device judged, adjusted or fitted; null when never. */
export const lastSeen = (record: ChildRecord, today: IsoDate): IsoDate | null =>
  [
    ...record.measurements.filter((m) => m.method !== 'parent').map((m) => m.date),
    ...record.events.filter(seen).map((e) => e.date),
    ...record.devices.flatMap((d) => (d.fittedDate ? [d.castDate, d.fittedDate] : [d.castDate])),
  ]
    .filter((d) => d <= today)
    .sort()
    .at(-1) ?? null;
