import { z } from 'zod';
import type { ServiceDeps } from '../dependencies.js';
import { undoCorrection } from '../undo-correction.js';
import { type Api, clinical, routesOf, tagged, writing } from './api.js';
import { itemsOf, noBody } from './schemas/common.js';
import {
  correction,
  deviceRecord,
  deviceVersion,
  eventCorrection,
  eventRevision,
  revision,
  visitMove,
} from './schemas/records.js';

/** What was entered wrongly is put right and taken back, as on the pages; what was entered first always stays. */
export function correctionsRoutes(api: Api, deps: ServiceDeps): void {
  readingCorrections(api, deps);
  deviceCorrections(api, deps);
}

function readingCorrections(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, write } = routesOf(api, deps, ['Corrections']);

  get(
    '/children/:id/corrections',
    clinical,
    'Every reading that was ever corrected, with all its revisions',
    { 200: itemsOf(revision) },
    async ({ id, actor }) => ({ items: await store.measurements.corrected(id, actor) }),
  );
  get(
    '/measurements/:id/revisions',
    clinical,
    'A reading as entered and every correction of it; the last counts',
    { 200: itemsOf(revision) },
    async ({ id, actor }) => {
      const items = await store.measurements.revisions(id, actor);
      return tagged({ value: { items }, version: items.length });
    },
  );
  write(
    'POST /measurements/:id/corrections',
    writing('measurements'),
    'Correct or withdraw a reading; the original stays. If-Match: the ETag of its revisions',
    { body: correction, 201: revision },
    async ({ tx, id, body, today, expected, actor }) => {
      const value = await tx.measurements.correct(id, body, today, expected, actor);
      return tagged({ value, version: value.revision });
    },
  );
  write(
    'POST /measurements/:id/corrections/undo',
    writing('measurements'),
    'Take the last correction back (itself a new revision), with what the same action corrected: swapped sides come back together',
    { body: noBody, 201: revision },
    ({ tx, id, today, actor }) => undoCorrection(tx, id, today, actor),
  );
  write(
    'POST /children/:id/visits/move',
    writing('measurements'),
    'A visit entered on the wrong day: its readings, skin checks and judgements go to another',
    { body: visitMove, 200: z.object({ moved: z.number().int() }) },
    async ({ tx, id, body, today, actor }) => ({ moved: await tx.visits.move(id, body, today, actor) }),
  );
}

function deviceCorrections(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, write } = routesOf(api, deps, ['Corrections']);

  get(
    '/devices/:id/history',
    clinical,
    'Every state of a device, newest first, and everything recorded of it with its corrections',
    { 200: z.object({ versions: z.array(deviceVersion), events: z.array(eventRevision) }) },
    async ({ id, actor }) => ({
      versions: [...(await store.devices.versions(id, actor))],
      events: [...(await store.events.revisions(id, actor))],
    }),
  );
  write(
    'POST /devices/:id/undo',
    writing('devices'),
    'Take the last change of a device back (itself a new change)',
    { body: noBody, 200: deviceRecord },
    async ({ tx, id, today, actor }) => tagged(await tx.devices.undoChange(id, today, actor)),
  );
  write(
    'POST /events/:id/corrections',
    writing('events'),
    'Correct what was recorded of a device; what was recorded first stays',
    { body: eventCorrection, 201: eventRevision },
    ({ tx, id, body, today, actor }) => tx.events.correct(id, body, today, actor),
  );
  write(
    'POST /events/:id/corrections/undo',
    writing('events'),
    'Take the last correction or withdrawal of an event back (itself a new revision)',
    { body: noBody, 201: eventRevision },
    ({ tx, id, today, actor }) => tx.events.undoCorrection(id, today, actor),
  );
}
