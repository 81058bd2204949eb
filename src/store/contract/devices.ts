/** Devices, what is recorded of them, and their jobs in the workshop. */

import { z } from 'zod';
import type { IsoDate } from '../../records/dates.js';
import {
  type Device,
  type DeviceEvent,
  deviceEventRecord,
  deviceRecord,
  type WorkshopJob,
} from '../../records/device.js';
import { withoutDefaults } from '../../records/field-limits.js';
import { reason } from '../../records/records.js';
import type { Actor, Expected, Versioned } from './actor.js';
import { revised } from './readings.js';

/** A state of a device's record: who left it so and when. */
export const deviceVersion = z.object({
  version: z.number().int(),
  device: deviceRecord,
  by: z.string().nullable().describe('null: an event did it'),
  at: z.iso.datetime().nullable().describe('null: the first'),
});
export type DeviceVersion = Readonly<z.infer<typeof deviceVersion>>;

export const eventRevision = z.object({ event: deviceEventRecord, ...revised });
export type EventRevision = Readonly<z.infer<typeof eventRevision>>;

/** What is left out stays as it was recorded. */
export const eventCorrection = withoutDefaults(
  deviceEventRecord.pick({
    date: true,
    measure: true,
    side: true,
    changeMm: true,
    adjustment: true,
    verdict: true,
    note: true,
  }),
).extend({ reason });
export type EventCorrection = Readonly<z.infer<typeof eventCorrection>>;

export interface DevicesRepository {
  get(deviceId: string, actor: Actor): Promise<Versioned<Device>>;
  create(
    device: Omit<Device, 'id'> & { id?: string },
    today: IsoDate,
    actor: Actor,
  ): Promise<Versioned<Device>>;
  change(
    deviceId: string,
    change: Partial<Device>,
    today: IsoDate,
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<Device>>;
  /** Every state of the record, newest first. */
  versions(deviceId: string, actor: Actor): Promise<readonly DeviceVersion[]>;
  /** Back to the state before the last change, itself as a new change; throws 'nothing-to-undo'. */
  undoChange(deviceId: string, today: IsoDate, actor: Actor): Promise<Versioned<Device>>;
}

export interface EventsRepository {
  /** A fit verdict, an adjustment, a new cast ...; 'retired' also retires the device, 'delivered' makes one that was ordered worn. */
  add(event: Omit<DeviceEvent, 'id'>, today: IsoDate, actor: Actor): Promise<DeviceEvent>;
  /** Everything recorded of a device, corrections and what was withdrawn among it, in the order it was entered. */
  revisions(deviceId: string, actor: Actor): Promise<readonly EventRevision[]>;
  correct(eventId: string, correction: EventCorrection, today: IsoDate, actor: Actor): Promise<EventRevision>;
  /** The end or delivery of a device withdrawn, the device is as before it. */
  withdraw(eventId: string, reason: string, actor: Actor): Promise<void>;
  /** Back to the revision before, itself as a new revision. */
  undoCorrection(eventId: string, today: IsoDate, actor: Actor): Promise<EventRevision>;
}

export interface WorkshopJobsRepository {
  save(job: WorkshopJob, today: IsoDate, expected: Expected, actor: Actor): Promise<Versioned<WorkshopJob>>;
  all(): Promise<readonly WorkshopJob[]>;
}
