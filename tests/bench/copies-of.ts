import type { ChildRecord } from '../../src/records/caseload.js';

/** Children over and over under new ids, up to so many: the records are the demo clinic's, only the number is not. */
export function copiesOf(records: readonly ChildRecord[], count: number): ChildRecord[] {
  const copies = Array.from({ length: Math.ceil(count / records.length) }, (_, k) => k);
  return copies.flatMap((k) => records.map((record) => renamed(record, `-${k}`))).slice(0, count);
}

function renamed(record: ChildRecord, mark: string): ChildRecord {
  const { child } = record;
  const siblingGroup = child.siblingGroup && `${child.siblingGroup}${mark}`;
  const own = <T extends { id: string; childId?: string; deviceId?: string | null }>(rows: readonly T[]) =>
    rows.map((row) => ({
      ...row,
      id: `${row.id}${mark}`,
      ...(row.childId ? { childId: `${row.childId}${mark}` } : {}),
      ...(row.deviceId ? { deviceId: `${row.deviceId}${mark}` } : {}),
    }));
  return {
    child: { ...child, id: `${child.id}${mark}`, siblingGroup },
    measurements: own(record.measurements),
    markers: own(record.markers),
    skinChecks: own(record.skinChecks),
    devices: own(record.devices),
    events: own(record.events),
    jobs: own(record.jobs),
  };
}
