import { z } from 'zod';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { refuseOthersFields } from '../scheduler-fields.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, administration, everyday, planning, recordKeeping, route } from './api.js';
import { idParams, nothing, pageOf, pageQuery, reason } from './schemas/common.js';
import { childSummary } from './schemas/derived.js';
import { childChange, childRecord, fullRecord } from './schemas/records.js';

const tags = ['Children'];

export function childrenRoutes(api: Api, deps: ServiceDeps): void {
  findingRoutes(api, deps);
  childRoutes(api, deps);
}

function findingRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children',
    route(
      everyday,
      tags,
      'Find children',
      { 200: pageOf(childSummary) },
      {
        querystring: pageQuery.extend({
          text: z.string().max(200).optional().describe('part of a name or id'),
          status: z.enum(['active', 'moved-away', 'discharged', 'died', 'any']).default('active'),
          sort: z.enum(['name', 'soonest']).default('name').describe('soonest: outgrown first on top'),
          family: z.string().max(60).optional().describe('wears a device of this family'),
        }),
      },
    ),
    async (request) => {
      const { limit, cursor, ...search } = request.query;
      return store.children.search(search, { limit, cursor }, actorOf(request));
    },
  );

  api.post(
    '/children',
    route(recordKeeping, tags, 'Add a child', { 201: childRecord }, { body: childRecord }),
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
}

function childRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/children/:id',
    route(
      everyday,
      tags,
      'One child; for all but clinicians without diagnosis detail',
      { 200: childRecord },
      { params: idParams },
    ),
    async (request, reply) => {
      const { value, version } = await store.children.get(request.params.id, actorOf(request));
      return reply.headers(etag(version)).send(value);
    },
  );

  api.patch(
    '/children/:id',
    route(
      planning,
      tags,
      'Change what is named; a scheduler may change contact, language, transport and grouping only',
      { 200: childRecord },
      { params: idParams, body: childChange },
    ),
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
    route(
      planning,
      tags,
      'The whole current record: child, readings, markers, devices, events, workshop jobs',
      { 200: fullRecord },
      { params: idParams },
    ),
    async (request) => store.children.record(request.params.id, actorOf(request)),
  );

  api.post(
    '/children/:id/erasure',
    route(
      administration,
      tags,
      'Erase the record for good; a tombstone and the audit trail stay',
      { 204: nothing },
      { params: idParams, body: z.object({ reason }) },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.children.erase(request.params.id, request.body.reason, actor);
        return { status: 204, body: null };
      }),
  );
}
