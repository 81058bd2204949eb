import { z } from 'zod';
import { skinCheckRecord } from '../../records/skin-check.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { write } from '../write.js';
import { type Api, clinical, route } from './api.js';
import { idParams, itemsOf, nothing, reason } from './schemas/common.js';
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

export function readingsRoutes(api: Api, deps: ServiceDeps): void {
  visitRoutes(api, deps);
  readingRoutes(api, deps);
  markerRoutes(api, deps);
  skinCheckRoutes(api, deps);
}

function visitRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/visits',
    route(
      clinical,
      tags,
      'Visits (the readings of one date), newest first',
      { 200: itemsOf(visit) },
      { params: idParams },
    ),
    async (request) => ({
      items: await store.visits.list(request.params.id, actorOf(request)),
    }),
  );

  api.post(
    '/children/:id/visits',
    route(
      clinical,
      tags,
      'Enter a visit; all its readings are stored or none',
      { 201: itemsOf(measurementRecord) },
      { params: idParams, body: newVisit },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: { items: await tx.visits.add(request.params.id, request.body, clock.today(), actor) },
      })),
  );
}

function readingRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/measurements',
    route(
      clinical,
      tags,
      'Every current reading, by date',
      { 200: itemsOf(measurementRecord) },
      { params: idParams },
    ),
    async (request) => ({
      items: (await store.children.record(request.params.id, actorOf(request))).measurements,
    }),
  );

  api.post(
    '/children/:id/measurements',
    route(
      clinical,
      tags,
      'Enter one reading',
      { 201: measurementRecord },
      { params: idParams, body: newMeasurement },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const { date, observer, ...reading } = request.body;
        const given = { date, observer, measurements: [reading] };
        const [stored] = await tx.visits.add(request.params.id, given, clock.today(), actor);
        return { status: 201, body: stored };
      }),
  );
}

function markerRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/markers',
    route(clinical, tags, 'Maturity markers', { 200: itemsOf(markerRecord) }, { params: idParams }),
    async (request) => ({
      items: (await store.children.record(request.params.id, actorOf(request))).markers,
    }),
  );

  api.post(
    '/children/:id/markers',
    route(
      clinical,
      tags,
      'Record a maturity marker',
      { 201: markerRecord },
      { params: idParams, body: newMarker },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await tx.markers.add({ ...request.body, childId: request.params.id }, clock.today(), actor),
      })),
  );
}

function skinCheckRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/skin-checks',
    route(
      clinical,
      tags,
      'What the skin under a device looked like, by date',
      { 200: itemsOf(skinCheckRecord) },
      { params: idParams },
    ),
    async (request) => ({
      items: (await store.children.record(request.params.id, actorOf(request))).skinChecks,
    }),
  );

  api.post(
    '/children/:id/skin-checks',
    route(
      clinical,
      tags,
      'Record a look at the skin; redness that lasts or open skin is to be seen at once',
      { 201: skinCheckRecord },
      { params: idParams, body: newSkinCheck },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await tx.skinChecks.add({ ...request.body, childId: request.params.id }, clock.today(), actor),
      })),
  );

  api.post(
    '/skin-checks/:id/withdrawal',
    route(
      clinical,
      tags,
      'Withdraw a skin check entered in error; it stays on record',
      { 204: nothing },
      { params: idParams, body: z.object({ reason }) },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.skinChecks.withdraw(request.params.id, request.body.reason, actor);
        return { status: 204, body: null };
      }),
  );
}
