import { createHmac, timingSafeEqual } from 'node:crypto';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { csvTables } from '../../exchange/csv/write-caseload.js';
import { toFhirBundle, toFhirResources, toNdjson } from '../../exchange/fhir/to-fhir.js';
import { type Caseload, childrenIn, ungroup } from '../../records/caseload.js';
import type { User } from '../../store/contract.js';
import { actorOf } from '../access.js';
import { calendarOf } from '../calendar-of.js';
import type { ServiceDeps } from '../dependencies.js';
import { pseudonymisedExport } from '../pseudonymised-export.js';
import { type Api, administration, planning, recordKeeping, route } from './api.js';
import { file, idParams, noBody } from './schemas/common.js';

const tags = ['Exports'];
/** The tables of records that a clinic can take away as CSV. */
export const tables = ['children', 'measurements', 'markers', 'devices', 'events', 'jobs', 'skin'] as const;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of routes, each short
export function exportsRoutes(api: Api, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const exported = (request: FastifyRequest, resource: string, caseload: Caseload) =>
    store.audit.record(actorOf(request), 'export', resource, { childIds: childrenIn(caseload) });

  api.get(
    '/children/:id/export',
    route(
      recordKeeping,
      tags,
      'What is held about one child, as far as your role sees it, for the family or another clinic',
      { 200: file },
      { params: idParams, querystring: z.object({ format: z.enum(['json', 'fhir']).default('json') }) },
    ),
    async (request, reply) => {
      const { id } = request.params;
      const actor = actorOf(request);
      // What the role sees on the child's page and no more.
      const record = await store.children.record(id, actor);
      await store.audit.record(actor, 'export', 'child-record', { childId: id });
      reply.header('content-disposition', 'attachment; filename="record.json"');
      if (request.query.format === 'fhir')
        return reply
          .type('application/fhir+json')
          .send(JSON.stringify(toFhirBundle(toFhirResources(ungroup([record])))));
      const clinical = actor.role === 'clinician';
      const corrections = clinical ? await store.measurements.corrected(id, actor) : null;
      const accesses = (await store.audit.list({ childId: id }, { limit: 500 })).items;
      const assessment = clinical ? await store.forecasts.assessment(id) : null;
      return reply
        .type('application/json')
        .send(JSON.stringify({ record, corrections, assessment, accesses }));
    },
  );

  api.get(
    '/exports/tables/:table',
    route(
      administration,
      tags,
      'One table of the whole caseload as CSV, diagnoses too; the same file can be imported again',
      { 200: file },
      { params: z.object({ table: z.enum(tables) }) },
    ),
    async (request, reply) => {
      const name = `${request.params.table}.csv` as const;
      const caseload = await store.caseload.all();
      await exported(request, name, caseload);
      const text = csvTables(caseload)[name];
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="${name}"`)
        .send(text);
    },
  );

  api.get(
    '/exports/fhir',
    route(
      administration,
      tags,
      'The whole caseload as FHIR R4, diagnoses too: one Bundle, or a resource a line',
      { 200: file },
      { querystring: z.object({ format: z.enum(['bundle', 'ndjson']).default('bundle') }) },
    ),
    async (request, reply) => {
      const caseload = await store.caseload.all();
      await exported(request, 'fhir', caseload);
      const resources = toFhirResources(caseload);
      return request.query.format === 'ndjson'
        ? reply.type('application/fhir+ndjson').send(toNdjson(resources))
        : reply.type('application/fhir+json').send(JSON.stringify(toFhirBundle(resources)));
    },
  );

  api.get(
    '/exports/pseudonymised',
    route(
      administration,
      tags,
      'Readings and devices for research: keyed ids, age in months, shifted dates, small groups merged',
      { 200: file },
    ),
    async (request, reply) => {
      const records = await store.caseload.records(await store.caseload.ids('any'));
      await exported(request, 'pseudonymised', ungroup(records));
      const body = pseudonymisedExport(records, await store.secret('pseudonyms'));
      return reply.type('application/json').send(JSON.stringify(body));
    },
  );

  const signature = async (user: User) =>
    createHmac('sha256', await store.secret('calendar-feed'))
      .update(`${user.id} ${user.version}`)
      .digest('base64url');

  api.post(
    '/calendar-feed',
    route(
      planning,
      tags,
      'Your own address of the recall plan as a calendar feed; a changed account ends it',
      { 201: z.object({ path: z.string() }) },
      { body: noBody },
    ),
    async (request, reply) => {
      const user = await store.users.get(actorOf(request).userId);
      const path = `/api/calendar-feed/${user.id}.${await signature(user)}.ics`;
      return reply.code(201).send({ path });
    },
  );

  api.get(
    '/calendar-feed/:token',
    route(
      { access: 'public' },
      tags,
      'The recall plan as iCalendar: no name, diagnosis or device in it',
      { 200: file },
      { params: z.object({ token: z.string().max(200) }) },
    ),
    async (request, reply) => {
      const [id, given = ''] = request.params.token.split('.');
      const user = await store.users.get(id).catch(() => null);
      const right = user && !user.disabled && planning.access.includes(user.role) && (await signature(user));
      if (!user || !right || !same(given, right))
        throw new DoorpostError(
          'link-not-valid',
          'This calendar address is not valid any more: ask for a new one',
        );
      const [run] = await store.recall.inUse();
      const actor = { userId: user.id, name: user.name, role: user.role, requestId: request.id };
      const rows = run ? await store.recall.entries(run.id, {}, actor) : [];
      await store.audit.record(actor, 'export', 'calendar-feed', {
        childIds: rows.map((row) => row.childId),
      });
      return reply.type('text/calendar; charset=utf-8').send(await calendarOf(rows, { store, clock }));
    },
  );
}

const same = (a: string, b: string) =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));
