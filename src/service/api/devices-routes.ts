import { z } from 'zod';
import { endReasons } from '../../records/device.js';
import { note } from '../../records/records.js';
import { actorOf } from '../access.js';
import { castNext, deliver, recordEvent } from '../cast-next.js';
import type { ServiceDeps } from '../dependencies.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, clinical, planning, route } from './api.js';
import { date, id, idParams, itemsOf, nothing, reason } from './schemas/common.js';
import {
  deviceChange,
  deviceEventRecord,
  deviceRecord,
  newDevice,
  newEvent,
  nextDevice,
  workshopJobRecord,
} from './schemas/records.js';

const tags = ['Devices'];

export function devicesRoutes(api: Api, deps: ServiceDeps): void {
  deviceRoutes(api, deps);
  replacementRoutes(api, deps);
  eventRoutes(api, deps);
  workshopJobRoutes(api, deps);
}

function deviceRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/devices',
    route(planning, tags, 'Every device of a child', { 200: itemsOf(deviceRecord) }, { params: idParams }),
    async (request) => ({
      items: [...(await store.children.record(request.params.id, actorOf(request))).devices],
    }),
  );

  api.post(
    '/children/:id/devices',
    route(clinical, tags, 'Add a device', { 201: deviceRecord }, { params: idParams, body: newDevice }),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const added = await tx.devices.create(
          { ...request.body, childId: request.params.id },
          clock.today(),
          actor,
        );
        return {
          status: 201,
          body: added.value,
          headers: {
            ...etag(added.version),
            location: `/api/devices/${encodeURIComponent(added.value.id)}`,
          },
        };
      }),
  );

  api.get(
    '/devices/:id',
    route(planning, tags, 'One device', { 200: deviceRecord }, { params: idParams }),
    async (request, reply) => {
      const { value, version } = await store.devices.get(request.params.id, actorOf(request));
      return reply.headers(etag(version)).send(value);
    },
  );

  api.patch(
    '/devices/:id',
    route(
      clinical,
      tags,
      'Change what is named: status, dates, allowances, limits',
      { 200: deviceRecord },
      { params: idParams, body: deviceChange },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const changed = await tx.devices.change(
          request.params.id,
          request.body as Partial<z.output<typeof deviceRecord>>,
          clock.today(),
          expectedVersion(request),
          actor,
        );
        return { status: 200, body: changed.value, headers: etag(changed.version) };
      }),
  );
}

function replacementRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.post(
    '/devices/:id/next',
    route(
      clinical,
      tags,
      'Cast the next one: family, side, plate, allowances and bars as before unless given; linked to this device, its job begun',
      { 201: deviceRecord },
      { params: idParams, body: nextDevice },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const next = await castNext(tx, request.params.id, request.body ?? {}, clock.today(), actor);
        return {
          status: 201,
          body: next.value,
          headers: { ...etag(next.version), location: `/api/devices/${encodeURIComponent(next.value.id)}` },
        };
      }),
  );

  api.post(
    '/devices/:id/delivery',
    route(
      clinical,
      tags,
      'A device that was being made is fitted: it is worn, its job closed, the old one asked about',
      { 200: z.object({ device: deviceRecord, stillWorn: deviceRecord.nullable() }) },
      {
        params: idParams,
        body: z.object({
          date: date.optional().describe('the day it was fitted; today when absent'),
          retireReplaced: z
            .enum(endReasons)
            .nullish()
            .describe('why the device whose place it takes ends; left out, that one stays in use'),
          note,
        }),
      },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const today = clock.today();
        const { date: on = today, retireReplaced = null, note } = request.body;
        const { device, stillWorn } = await deliver(
          tx,
          request.params.id,
          { date: on, retireReplaced, note },
          today,
          actor,
        );
        return { status: 200, body: { device: device.value, stillWorn }, headers: etag(device.version) };
      }),
  );
}

function eventRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/devices/:id/events',
    route(
      clinical,
      tags,
      'What happened to a device, by date',
      { 200: itemsOf(deviceEventRecord) },
      { params: idParams },
    ),
    async (request) => {
      const actor = actorOf(request);
      const { value } = await store.devices.get(request.params.id, actor);
      const record = await store.children.record(value.childId, actor);
      return { items: record.events.filter((e) => e.deviceId === value.id) };
    },
  );

  api.post(
    '/devices/:id/events',
    route(
      clinical,
      tags,
      'Record an event: adjusted, fit verdict, re-cast, delivered, broken, lost, retired with its reason',
      { 201: deviceEventRecord },
      { params: idParams, body: newEvent },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await recordEvent(tx, { ...request.body, deviceId: request.params.id }, clock.today(), actor),
      })),
  );

  api.post(
    '/events/:id/withdrawal',
    route(
      clinical,
      tags,
      'Withdraw an event entered in error; it stays on record',
      { 204: nothing },
      { params: idParams, body: z.object({ reason }) },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.events.withdraw(request.params.id, request.body.reason, actor);
        return { status: 204, body: null };
      }),
  );
}

function workshopJobRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.put(
    '/workshop-jobs/:id',
    route(
      planning,
      tags,
      'Save a workshop job and its stages; If-Match "0" for a new one',
      { 200: workshopJobRecord },
      { params: idParams, body: workshopJobRecord.omit({ id: true }) },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const saved = await tx.workshopJobs.save(
          { ...request.body, id: id.parse(request.params.id) },
          clock.today(),
          expectedVersion(request),
          actor,
        );
        return { status: 200, body: saved.value, headers: etag(saved.version) };
      }),
  );
}
