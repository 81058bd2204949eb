import type { Caseload } from '../caseload.js';
import type { IsoDate } from '../dates.js';
import type { Device } from '../device.js';
import { childFaults } from './child-faults.js';
import { deviceFaults, type Families } from './device-faults.js';
import { eventFaults } from './event-faults.js';
import { markerFaults } from './marker-faults.js';
import { readingFaults } from './reading-faults.js';
import type { Fault } from './refuse.js';
import { skinCheckFaults } from './skin-check-faults.js';
import { workshopJobFaults } from './workshop-job-faults.js';

/** What many records are checked against: the children and devices they name, wherever those are kept. */
export interface CaseloadContext {
  readonly birthDateOf: (childId: string) => IsoDate | undefined;
  readonly deviceOf: (deviceId: string) => Device | undefined;
  readonly today: IsoDate;
  readonly families: Families;
}

/** The checks of one record, over many of every kind. */
export function* caseloadFaults(rows: Partial<Caseload>, context: CaseloadContext): Generator<Fault> {
  const { birthDateOf, deviceOf, today, families } = context;
  for (const child of rows.children ?? []) yield* childFaults(child, today);
  for (const device of rows.devices ?? [])
    yield* ofChild('Device', device.childId, (birthDate) =>
      deviceFaults(device, { birthDate, today, families }),
    );
  for (const reading of rows.measurements ?? [])
    yield* ofChild('Reading', reading.childId, (birthDate) => readingFaults(reading, birthDate, today));
  for (const marker of rows.markers ?? [])
    yield* ofChild('Marker', marker.childId, (birthDate) => markerFaults(marker, birthDate, today));
  for (const check of rows.skinChecks ?? [])
    yield* ofChild('Skin check', check.childId, (birthDate) =>
      skinCheckFaults(check, { birthDate, device: deviceOf(check.deviceId ?? '') ?? null, today }),
    );
  for (const event of rows.events ?? [])
    yield* ofDevice('Event', event.deviceId, (device) => eventFaults(event, { device, today, families }));
  for (const job of rows.jobs ?? [])
    yield* ofDevice('Workshop job', job.deviceId, ({ childId }) =>
      ofChild('Workshop job', childId, (birthDate) => workshopJobFaults(job, { birthDate, today, families })),
    );

  function* ofChild(what: string, childId: string, check: (birthDate: IsoDate) => Iterable<Fault>) {
    const birthDate = birthDateOf(childId);
    if (birthDate !== undefined) yield* check(birthDate);
    else yield { what, field: 'childId', given: childId, accepted: 'a child in the file or in the store' };
  }
  function* ofDevice(what: string, deviceId: string, check: (device: Device) => Iterable<Fault>) {
    const device = deviceOf(deviceId);
    if (device !== undefined) yield* check(device);
    else yield { what, field: 'deviceId', given: deviceId, accepted: 'a device in the file or in the store' };
  }
}
