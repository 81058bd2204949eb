/** Devices, what is recorded of them, and their jobs in the workshop. */

import type { IsoDate } from '../../records/dates.js';
import type { Device, DeviceEvent, WorkshopJob } from '../../records/device.js';
import type { Actor, Expected, Versioned } from './actor.js';

/** A state of a device's record: who left it so and when; `by` null where an event did, `at` null for the first. */
export interface DeviceVersion {
  readonly version: number;
  readonly device: Device;
  readonly by: string | null;
  readonly at: string | null;
}

/** Revision 1 is the entry as recorded; the highest revision counts. */
export interface EventRevision {
  readonly event: DeviceEvent;
  readonly revision: number;
  readonly withdrawn: boolean;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

export type EventCorrection = Partial<
  Pick<DeviceEvent, 'date' | 'measure' | 'side' | 'changeMm' | 'adjustment' | 'verdict' | 'note'>
> & { readonly reason: string };

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
