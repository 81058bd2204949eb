import { z } from 'zod';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { refuseOthersFields } from '../scheduler-fields.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, administration, everyday, planning, recordKeeping } from './api.js';
import { failures, idParams, nothing, pageOf, pageQuery, reason } from './schemas/common.js';
import { childSummary } from './schemas/derived.js';
import { childChange, childRecord, fullRecord } from './schemas/records.js';

const tags = ['Children'];

export function childrenRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children',
    {
      config: everyday,
      schema: {
        tags,
        summary: 'Find children',
        querystring: pageQuery.extend({
          text: z.string().max(200).optional().describe('part of a name or id'),
          status: z.enum(['active', 'moved-away', 'discharged', 'died', 'any']).default('active'),
          sort: z.enum(['name', 'soonest']).default('name').describe('soonest: outgrown first on top'),
          family: z.string().max(60).optional().describe('wears a device of this family'),
        }),
        response: { 200: pageOf(childSummary), ...failures },
      },
    },
    async (request) => {
      const { limit, cursor, ...search } = request.query;
      return store.children.search(search, { limit, cursor }, actorOf(request));
    },
  );

  api.post(
    '/children',
    {
      config: recordKeeping,
      schema: {
        tags,
        summary: 'Add a child',
        body: childRecord,
        response: { 201: childRecord, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const { value, version } = await tx.children.create(request.body, clock.today(), actor);
        return {
          status: 201,
          body: value,
          headers: { ...etag(version), location: `/api/children/${encodeURIComponent(value.id)}` },
        };
      }),
  );

  api.get(
    '/children/:id',
    {
      config: everyday,
      schema: {
        tags,
        summary: 'One child; for all but clinicians without diagnosis detail',
        params: idParams,
        response: { 200: childRecord, ...failures },
      },
    },
    async (request, reply) => {
      const { value, version } = await store.children.get(request.params.id, actorOf(request));
      return reply.headers(etag(version)).send(value);
    },
  );

  api.patch(
    '/children/:id',
    {
      config: planning,
      schema: {
        tags,
        summary:
          'Change what is named; a scheduler may change contact, language, transport and grouping only',
        params: idParams,
        body: childChange,
        response: { 200: childRecord, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        refuseOthersFields(Object.keys(request.body), actor.role);
        const changed = await tx.children.change(
          request.params.id,
          request.body,
          clock.today(),
          expectedVersion(request),
          actor,
        );
        return { status: 200, body: changed.value, headers: etag(changed.version) };
      }),
  );

  api.get(
    '/children/:id/record',
    {
      config: planning,
      schema: {
        tags,
        summary: 'The whole current record: child, readings, markers, devices, events, workshop jobs',
        params: idParams,
        response: { 200: fullRecord, ...failures },
      },
    },
    async (request) => store.children.record(request.params.id, actorOf(request)),
  );

  api.post(
    '/children/:id/erasure',
    {
      config: administration,
      schema: {
        tags,
        summary: 'Erase the record for good; a tombstone and the audit trail stay',
        params: idParams,
        body: z.object({ reason }),
        response: { 204: nothing, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.children.erase(request.params.id, request.body.reason, actor);
        return { status: 204, body: null };
      }),
  );
}
