import { z } from 'zod';
import type { Device } from '../../records/device.js';
import type { Versioned } from '../../store/contract.js';
import { castNext, deliver, recordEvent } from '../cast-next.js';
import type { ServiceDeps } from '../dependencies.js';
import { type Api, clinical, planning, routesOf, tagged, writing } from './api.js';
import { id, itemsOf, nothing, reason } from './schemas/common.js';
import {
  delivery,
  deviceChange,
  deviceEventRecord,
  deviceRecord,
  newDevice,
  newEvent,
  nextDevice,
  workshopJobRecord,
} from './schemas/records.js';

const made = (device: Versioned<Device>) =>
  tagged(device, `/api/devices/${encodeURIComponent(device.value.id)}`);

export function devicesRoutes(api: Api, deps: ServiceDeps): void {
  deviceRoutes(api, deps);
  eventRoutes(api, deps);
}

function deviceRoutes(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, ofRecord, write } = routesOf(api, deps, ['Devices']);

  ofRecord('devices', planning, 'Every device of a child', deviceRecord, (r) => r.devices);
  write(
    'POST /children/:id/devices',
    writing('devices'),
    'Add a device',
    { body: newDevice, 201: deviceRecord },
    async ({ tx, id: childId, body, today, actor }) =>
      made(await tx.devices.create({ ...body, childId }, today, actor)),
  );
  get('/devices/:id', planning, 'One device', { 200: deviceRecord }, async ({ id, actor }) =>
    tagged(await store.devices.get(id, actor)),
  );
  write(
    'PATCH /devices/:id',
    writing('devices'),
    'Change what is named: status, dates, allowances, limits',
    { body: deviceChange, 200: deviceRecord },
    async ({ tx, id, body, today, expected, actor }) =>
      tagged(await tx.devices.change(id, body as Partial<Device>, today, expected, actor)),
  );
  write(
    'POST /devices/:id/next',
    writing('devices'),
    'Cast the next one: family, side, plate, allowances and bars as before unless given; linked to this device, its job begun',
    { body: nextDevice, 201: deviceRecord },
    async ({ tx, id, body, today, actor }) => made(await castNext(tx, id, body ?? {}, today, actor)),
  );
  write(
    'POST /devices/:id/delivery',
    writing('devices'),
    'A device that was being made is fitted: it is worn, its job closed, the old one asked about',
    {
      body: delivery,
      200: z.object({ device: deviceRecord, stillWorn: deviceRecord.nullable() }),
    },
    async ({ tx, id, body, today, actor }) => {
      const { device, stillWorn } = await deliver(tx, id, body, today, actor);
      return tagged({ value: { device: device.value, stillWorn }, version: device.version });
    },
  );
}

function eventRoutes(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, write } = routesOf(api, deps, ['Devices']);

  get(
    '/devices/:id/events',
    clinical,
    'What happened to a device, by date',
    { 200: itemsOf(deviceEventRecord) },
    async ({ id, actor }) => {
      const { value } = await store.devices.get(id, actor);
      const record = await store.children.record(value.childId, actor);
      return { items: record.events.filter((e) => e.deviceId === value.id) };
    },
  );
  write(
    'POST /devices/:id/events',
    writing('events'),
    'Record an event: adjusted, fit verdict, re-cast, delivered, broken, lost, retired with its reason',
    { body: newEvent, 201: deviceEventRecord },
    ({ tx, id: deviceId, body, today, actor }) => recordEvent(tx, { ...body, deviceId }, today, actor),
  );
  write(
    'POST /events/:id/withdrawal',
    writing('events'),
    'Withdraw an event entered in error; it stays on record',
    { body: z.object({ reason }), 204: nothing },
    ({ tx, id, body, actor }) => tx.events.withdraw(id, body.reason, actor),
  );
  write(
    'PUT /workshop-jobs/:id',
    writing('jobs'),
    'Save a workshop job and its stages; If-Match "0" for a new one',
    { body: workshopJobRecord.omit({ id: true }), 200: workshopJobRecord },
    async ({ tx, id: given, body, today, expected, actor }) =>
      tagged(await tx.workshopJobs.save({ ...body, id: id.parse(given) }, today, expected, actor)),
  );
}
