import type { z } from 'zod';
import { DoorpostError } from '../errors.js';
import type { IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import type { Actor, NewEvent, Store, Versioned } from '../store/contract.js';
import type { delivery } from './api/schemas/records.js';

/** What may be chosen anew for the next device; what is left out is as in the one before. */
export type NextDevice = Partial<
  Pick<
    Device,
    'family' | 'side' | 'footplate' | 'castDate' | 'allowancesMm' | 'limitsMm' | 'extensionRangeMm' | 'extra'
  >
>;

/**
 * Casts the next one of a device: same family, side, plate, allowances and bars unless chosen anew, linked to the one
 * whose place it takes, with a job in the workshop begun on the day of the cast. Sizes a maker stated are those of the
 * old shell and are not carried.
 */
export async function castNext(
  tx: Store,
  deviceId: string,
  chosen: NextDevice,
  today: IsoDate,
  actor: Actor,
): Promise<Versioned<Device>> {
  const { value: before } = await tx.devices.get(deviceId, actor);
  if (before.status === 'ordered')
    throw new DoorpostError('already-there', 'This device is being made itself: record its delivery first', {
      field: 'id',
    });
  const { devices } = await tx.children.record(before.childId, actor);
  if (devices.some((d) => d.replaces === deviceId && d.status === 'ordered'))
    throw new DoorpostError('already-there', 'The next one after this device is being made already', {
      field: 'id',
    });
  const next = await tx.devices.create(
    {
      childId: before.childId,
      family: before.family,
      side: before.side,
      footplate: before.footplate,
      hipAngleFrom: before.hipAngleFrom,
      hipAngleTo: before.hipAngleTo,
      allowancesMm: before.allowancesMm,
      limitsMm: {},
      extensionRangeMm: before.extensionRangeMm,
      castDate: today,
      extra: {},
      ...chosen,
      fittedDate: null,
      status: 'ordered',
      replaces: deviceId,
    },
    today,
    actor,
  );
  await beginJob(tx, next.value, today, actor);
  return next;
}

/** The workshop's job of a device that was cast. */
export async function beginJob(
  tx: Store,
  { id, family, castDate }: Device,
  today: IsoDate,
  actor: Actor,
): Promise<void> {
  const job = { id: `${id}-made`.slice(0, 80), deviceId: id, family, stages: { cast: castDate } };
  await tx.workshopJobs.save({ ...job, status: 'in-progress' }, today, 0, actor);
}

/** Records what happened to a device; a delivery closes its job in the workshop as well. */
export async function recordEvent(
  tx: Store,
  given: NewEvent,
  today: IsoDate,
  actor: Actor,
): Promise<DeviceEvent> {
  const event = await tx.events.add(given, today, actor);
  if (event.kind !== 'delivered') return event;
  const { value: device } = await tx.devices.get(event.deviceId, actor);
  const { jobs } = await tx.children.record(device.childId, actor);
  for (const job of jobs.filter((j) => j.deviceId === device.id && j.status === 'in-progress'))
    await tx.workshopJobs.save(
      { ...job, stages: { ...job.stages, fit: event.date }, status: 'fitted' },
      today,
      null,
      actor,
    );
  return event;
}

export interface Delivered {
  readonly device: Versioned<Device>;
  /** The device whose place it takes, where it still counts as worn: ask whether to retire it. */
  readonly stillWorn: Device | null;
}

/** The new device is fitted and worn; the old one ends with its reason, or is asked about. */
export async function deliver(
  tx: Store,
  deviceId: string,
  { date: on, retireReplaced = null, note }: z.output<typeof delivery>,
  today: IsoDate,
  actor: Actor,
): Promise<Delivered> {
  const date = on ?? today;
  const { status } = (await tx.devices.get(deviceId, actor)).value;
  if (status !== 'ordered')
    throw new DoorpostError('already-there', 'This device is not being made: it was delivered or has ended', {
      field: 'id',
    });
  await recordEvent(tx, { deviceId, date, kind: 'delivered', note }, today, actor);
  const device = await tx.devices.get(deviceId, actor);
  const { replaces } = device.value;
  const old = replaces === null ? null : (await tx.devices.get(replaces, actor)).value;
  if (old?.status !== 'worn') return { device, stillWorn: null };
  if (retireReplaced === null) return { device, stillWorn: old };
  const retired = { deviceId: old.id, date, kind: 'retired', endReason: retireReplaced } as const;
  await tx.events.add(retired, today, actor);
  return { device, stillWorn: null };
}
