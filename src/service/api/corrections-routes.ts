import { z } from 'zod';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { undoCorrection } from '../undo-correction.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, clinical, route } from './api.js';
import { date, idParams, itemsOf, reason } from './schemas/common.js';
import {
  correction,
  deviceRecord,
  deviceVersion,
  eventCorrection,
  eventRevision,
  revision,
} from './schemas/records.js';

const tags = ['Corrections'];
const noBody = z.object({}).nullish();

/** What was entered wrongly is put right and taken back, as on the pages; what was entered first always stays. */
export function correctionsRoutes(api: Api, deps: ServiceDeps): void {
  readingCorrections(api, deps);
  deviceCorrections(api, deps);
}

function readingCorrections(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id/corrections',
    route(
      clinical,
      tags,
      'Every reading that was ever corrected, with all its revisions',
      { 200: itemsOf(revision) },
      { params: idParams },
    ),
    async (request) => ({
      items: await store.measurements.corrected(request.params.id, actorOf(request)),
    }),
  );

  api.get(
    '/measurements/:id/revisions',
    route(
      clinical,
      tags,
      'A reading as entered and every correction of it; the last counts',
      { 200: itemsOf(revision) },
      { params: idParams },
    ),
    async (request, reply) => {
      const revisions = await store.measurements.revisions(request.params.id, actorOf(request));
      return reply.header('etag', `"${revisions.length}"`).send({ items: [...revisions] });
    },
  );

  api.post(
    '/measurements/:id/corrections',
    route(
      clinical,
      tags,
      'Correct or withdraw a reading; the original stays. If-Match: the ETag of its revisions',
      { 201: revision },
      { params: idParams, body: correction },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const body = await tx.measurements.correct(
          request.params.id,
          request.body,
          clock.today(),
          expectedVersion(request),
          actor,
        );
        return { status: 201, body, headers: { etag: `"${body.revision}"` } };
      }),
  );

  api.post(
    '/measurements/:id/corrections/undo',
    route(
      clinical,
      tags,
      'Take the last correction back (itself a new revision), with what the same action corrected: swapped sides come back together',
      { 201: revision },
      { params: idParams, body: noBody },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await undoCorrection(tx, request.params.id, clock.today(), actor),
      })),
  );

  api.post(
    '/children/:id/visits/move',
    route(
      clinical,
      tags,
      'A visit entered on the wrong day: its readings, skin checks and judgements go to another',
      { 200: z.object({ moved: z.number().int() }) },
      { params: idParams, body: z.object({ from: date, to: date, reason }) },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 200,
        body: { moved: await tx.visits.move(request.params.id, request.body, clock.today(), actor) },
      })),
  );
}

function deviceCorrections(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/devices/:id/history',
    route(
      clinical,
      tags,
      'Every state of a device, newest first, and everything recorded of it with its corrections',
      { 200: z.object({ versions: z.array(deviceVersion), events: z.array(eventRevision) }) },
      { params: idParams },
    ),
    async (request) => {
      const actor = actorOf(request);
      const { id } = request.params;
      return {
        versions: [...(await store.devices.versions(id, actor))],
        events: [...(await store.events.revisions(id, actor))],
      };
    },
  );

  api.post(
    '/devices/:id/undo',
    route(
      clinical,
      tags,
      'Take the last change of a device back (itself a new change)',
      { 200: deviceRecord },
      { params: idParams, body: noBody },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const before = await tx.devices.undoChange(request.params.id, clock.today(), actor);
        return { status: 200, body: before.value, headers: etag(before.version) };
      }),
  );

  api.post(
    '/events/:id/corrections',
    route(
      clinical,
      tags,
      'Correct what was recorded of a device; what was recorded first stays',
      { 201: eventRevision },
      { params: idParams, body: eventCorrection },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await tx.events.correct(request.params.id, request.body, clock.today(), actor),
      })),
  );

  api.post(
    '/events/:id/corrections/undo',
    route(
      clinical,
      tags,
      'Take the last correction or withdrawal of an event back (itself a new revision)',
      { 201: eventRevision },
      { params: idParams, body: noBody },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => ({
        status: 201,
        body: await tx.events.undoCorrection(request.params.id, clock.today(), actor),
      })),
  );
}
