import type { z } from 'zod';
import { groupBy } from '../statistics/group-by.js';
import { deviceEventRecord, deviceRecord, workshopJobRecord } from './device.js';
import { type Child, childRecord, markerRecord, measurementRecord } from './records.js';
import { skinCheckRecord } from './skin-check.js';

/** A record of every kind, by its part of a caseload; what belongs to another stands behind it. */
const recordSchemas = {
  children: childRecord,
  measurements: measurementRecord,
  markers: markerRecord,
  devices: deviceRecord,
  events: deviceEventRecord,
  jobs: workshopJobRecord,
  skinChecks: skinCheckRecord,
} as const;
export type CaseloadPart = keyof typeof recordSchemas;
export const caseloadParts = Object.keys(recordSchemas) as CaseloadPart[];

/** What people entered, flat: the ground state of a clinic. Everything else is derived from it. */
export type Caseload = { readonly [P in CaseloadPart]: readonly z.output<(typeof recordSchemas)[P]>[] };

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
