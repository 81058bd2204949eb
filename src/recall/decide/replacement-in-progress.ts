import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device, WorkshopJob } from '../../records/device.js';

/** Devices that take each other's place: any ankle-foot orthosis replaces another, any long-leg one another. */
const regions: Readonly<Record<string, string>> = {
  'supramalleolar-orthosis': 'ankle-foot',
  'solid-afo': 'ankle-foot',
  'afo-with-straps': 'ankle-foot',
  'articulated-afo': 'ankle-foot',
  'ground-reaction-afo': 'ankle-foot',
  kafo: 'long-leg',
  hkafo: 'long-leg',
};
export const deviceRegion = (family: string): string => regions[family] ?? family;

export interface Replacement {
  readonly device: Device;
  /** Its job in the workshop, where one is recorded. */
  readonly job: WorkshopJob | null;
}

/**
 * The device being made to take a worn device's place, or null: an ordered, unfitted device of the same child, body
 * region and side, cast after it; or the worn device's own open job begun after it was fitted (a re-cast booked on
 * the same record).
 */
export function replacementInProgress(worn: Device, record: ChildRecord, today: IsoDate): Replacement | null {
  const openJob = (deviceId: string) =>
    record.jobs.find((j) => j.deviceId === deviceId && j.status === 'in-progress' && !j.stages.fit) ?? null;
  const next = record.devices.find(
    (d) =>
      d.id !== worn.id &&
      d.status === 'ordered' &&
      d.castDate >= worn.castDate &&
      d.castDate <= today &&
      !(d.fittedDate !== null && d.fittedDate <= today) &&
      deviceRegion(d.family) === deviceRegion(worn.family) &&
      sidesOverlap(d.side, worn.side),
  );
  if (next) return { device: next, job: openJob(next.id) };
  const own = openJob(worn.id);
  const begun = own?.stages.cast;
  return own && begun && worn.fittedDate !== null && begun > worn.fittedDate
    ? { device: worn, job: own }
    : null;
}

function sidesOverlap(a: Device['side'], b: Device['side']): boolean {
  return a === b || a === 'both' || b === 'both';
}
