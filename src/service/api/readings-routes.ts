import { z } from 'zod';
import { skinCheckRecord } from '../../records/skin-check.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { write } from '../write.js';
import { type Api, clinical } from './api.js';
import { failures, idParams, itemsOf, nothing, reason } from './schemas/common.js';
import {
  markerRecord,
  measurementRecord,
  newMarker,
  newMeasurement,
  newSkinCheck,
  newVisit,
  visit,
} from './schemas/records.js';

const tags = ['Readings'];

export function readingsRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/visits',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Visits (the readings of one date), newest first',
        params: idParams,
        response: { 200: itemsOf(visit), ...failures },
      },
    },
    async (request) => ({
      items: await store.visits.list(request.params.id, actorOf(request)),
    }),
  );

  api.post(
    '/children/:id/visits',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Enter a visit; all its readings are stored or none',
        params: idParams,
        body: newVisit,
        response: { 201: itemsOf(measurementRecord), ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: { items: await tx.visits.add(request.params.id, request.body, clock.today(), actor) },
      })),
  );

  api.get(
    '/children/:id/measurements',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Every current reading, by date',
        params: idParams,
        response: { 200: itemsOf(measurementRecord), ...failures },
      },
    },
    async (request) => ({
      items: (await store.children.record(request.params.id, actorOf(request))).measurements,
    }),
  );

  api.post(
    '/children/:id/measurements',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Enter one reading',
        params: idParams,
        body: newMeasurement,
        response: { 201: measurementRecord, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const { date, observer, ...reading } = request.body;
        const given = { date, observer, measurements: [reading] };
        const [stored] = await tx.visits.add(request.params.id, given, clock.today(), actor);
        return { status: 201, body: stored };
      }),
  );

  api.get(
    '/children/:id/markers',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Maturity markers',
        params: idParams,
        response: { 200: itemsOf(markerRecord), ...failures },
      },
    },
    async (request) => ({
      items: (await store.children.record(request.params.id, actorOf(request))).markers,
    }),
  );

  api.post(
    '/children/:id/markers',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Record a maturity marker',
        params: idParams,
        body: newMarker,
        response: { 201: markerRecord, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await tx.markers.add({ ...request.body, childId: request.params.id }, clock.today(), actor),
      })),
  );

  api.get(
    '/children/:id/skin-checks',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'What the skin under a device looked like, by date',
        params: idParams,
        response: { 200: itemsOf(skinCheckRecord), ...failures },
      },
    },
    async (request) => ({
      items: (await store.children.record(request.params.id, actorOf(request))).skinChecks,
    }),
  );

  api.post(
    '/children/:id/skin-checks',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Record a look at the skin; redness that lasts or open skin is to be seen at once',
        params: idParams,
        body: newSkinCheck,
        response: { 201: skinCheckRecord, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await tx.skinChecks.add({ ...request.body, childId: request.params.id }, clock.today(), actor),
      })),
  );

  api.post(
    '/skin-checks/:id/withdrawal',
    {
      config: clinical,
      schema: {
        tags,
        summary: 'Withdraw a skin check entered in error; it stays on record',
        params: idParams,
        body: z.object({ reason }),
        response: { 204: nothing, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.skinChecks.withdraw(request.params.id, request.body.reason, actor);
        return { status: 204, body: null };
      }),
  );
}
