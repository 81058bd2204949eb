import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device, WorkshopJob } from '../../records/device.js';
import type { FitRules } from '../../rules/fit-rule.js';

/** Devices of one region of the body take each other's place; a family without a rule only its own. */
const regionOf = (family: string, rules: FitRules): string => rules.get(family)?.region ?? family;

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
export function replacementInProgress(
  worn: Device,
  record: ChildRecord,
  rules: FitRules,
  today: IsoDate,
): Replacement | null {
  const next = record.devices.find(
    (d) =>
      d.id !== worn.id &&
      d.status === 'ordered' &&
      d.castDate >= worn.castDate &&
      d.castDate <= today &&
      regionOf(d.family, rules) === regionOf(worn.family, rules) &&
      sidesOverlap(d.side, worn.side),
  );
  if (next) return beingMade(next, record);
  const own = openJob(worn.id, record);
  const begun = own?.stages.cast;
  return own && begun && worn.fittedDate !== null && begun > worn.fittedDate
    ? { device: worn, job: own }
    : null;
}

const openJob = (deviceId: string, { jobs }: ChildRecord): WorkshopJob | null =>
  jobs.find((j) => j.deviceId === deviceId && j.status === 'in-progress' && !j.stages.fit) ?? null;

/** An ordered device with its job. */
export const beingMade = (device: Device, record: ChildRecord): Replacement => ({
  device,
  job: openJob(device.id, record),
});

export function sidesOverlap(a: Device['side'], b: Device['side']): boolean {
  return a === b || a === 'both' || b === 'both';
}
