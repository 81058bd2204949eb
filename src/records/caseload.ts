import { groupBy } from '../statistics/group-by.js';
import type { Device, DeviceEvent, WorkshopJob } from './device.js';
import type { Child, MaturityMarker, Measurement } from './records.js';
import type { SkinCheck } from './skin-check.js';

/** What people entered, flat: the ground state of a clinic. Everything else is derived from it. */
export interface Caseload {
  readonly children: readonly Child[];
  readonly measurements: readonly Measurement[];
  readonly markers: readonly MaturityMarker[];
  readonly devices: readonly Device[];
  readonly events: readonly DeviceEvent[];
  readonly jobs: readonly WorkshopJob[];
  readonly skinChecks: readonly SkinCheck[];
}

/** The same, for one child. */
export interface ChildRecord extends Omit<Caseload, 'children'> {
  readonly child: Child;
}

/** One record per child, in the order of `caseload.children`. Rows of unknown children are left out. */
export function groupByChild(caseload: Caseload): ChildRecord[] {
  const byChild = <T extends { childId: string }>(rows: readonly T[]) => groupBy(rows, (r) => r.childId);
  const measurements = byChild(caseload.measurements);
  const markers = byChild(caseload.markers);
  const devices = byChild(caseload.devices);
  const skinChecks = byChild(caseload.skinChecks);
  const events = groupBy(caseload.events, (e) => e.deviceId);
  const jobs = groupBy(caseload.jobs, (j) => j.deviceId);
  return caseload.children.map((child) => {
    const own = devices.get(child.id) ?? [];
    return {
      child,
      measurements: measurements.get(child.id) ?? [],
      markers: markers.get(child.id) ?? [],
      devices: own,
      events: own.flatMap((d) => events.get(d.id) ?? []),
      jobs: own.flatMap((d) => jobs.get(d.id) ?? []),
      skinChecks: skinChecks.get(child.id) ?? [],
    };
  });
}

/** The records of all these children, flat again. */
export const ungroup = (records: readonly ChildRecord[]): Caseload => ({
  children: records.map(({ child }) => child),
  measurements: records.flatMap((r) => r.measurements),
  markers: records.flatMap((r) => r.markers),
  devices: records.flatMap((r) => r.devices),
  events: records.flatMap((r) => r.events),
  jobs: records.flatMap((r) => r.jobs),
  skinChecks: records.flatMap((r) => r.skinChecks),
});

/** Ids of the children whose rows these are. */
export function childrenIn({
  children = [],
  measurements = [],
  markers = [],
  devices = [],
}: Partial<Caseload>): string[] {
  const rows = [measurements, markers, devices].flat();
  return [...new Set([...children.map(({ id }) => id), ...rows.map(({ childId }) => childId)])];
}
