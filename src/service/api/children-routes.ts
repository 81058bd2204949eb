import { z } from 'zod';
import { childSummary } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import { refuseOthersFields } from '../scheduler-fields.js';
import { type Api, administration, everyday, planning, routesOf, tagged, writing } from './api.js';
import { nothing, pageOf, pageQuery, reason } from './schemas/common.js';
import { childChange, childRecord, fullRecord } from './schemas/records.js';

export function childrenRoutes(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, write } = routesOf(api, deps, ['Children']);

  get(
    '/children',
    everyday,
    'Find children',
    {
      querystring: pageQuery.extend({
        text: z.string().max(200).optional().describe('part of a name or id'),
        status: z.enum([...childRecord.shape.status.unwrap().options, 'any']).default('active'),
        sort: z.enum(['name', 'soonest']).default('name').describe('soonest: outgrown first on top'),
        family: z.string().max(60).optional().describe('wears a device of this family'),
      }),
      200: pageOf(childSummary),
    },
    async ({ query: { limit, cursor, ...search }, actor }) =>
      store.children.search(search, { limit, cursor }, actor),
  );
  write(
    'POST /children',
    writing('newChildren'),
    'Add a child',
    { body: childRecord, 201: childRecord },
    async ({ tx, body, today, actor }) =>
      tagged(await tx.children.create(body, today, actor), `/api/children/${encodeURIComponent(body.id)}`),
  );
  get(
    '/children/:id',
    everyday,
    'One child; for all but clinicians without diagnosis detail',
    { 200: childRecord },
    async ({ id, actor }) => tagged(await store.children.get(id, actor)),
  );
  write(
    'PATCH /children/:id',
    writing('children'),
    'Change what is named; a scheduler may change contact, language, transport and grouping only',
    { body: childChange, 200: childRecord },
    async (asked) => {
      const { tx, id, body, today, actor } = asked;
      refuseOthersFields(Object.keys(body), actor.role);
      return tagged(await tx.children.change(id, body, today, asked.expected, actor));
    },
  );
  get(
    '/children/:id/record',
    planning,
    'The whole current record: child, readings, markers, devices, events, workshop jobs',
    { 200: fullRecord },
    ({ id, actor }) => store.children.record(id, actor),
  );
  write(
    'POST /children/:id/erasure',
    administration,
    'Erase the record for good; a tombstone and the audit trail stay',
    { body: z.object({ reason }), 204: nothing },
    ({ tx, id, body, actor }) => tx.children.erase(id, body.reason, actor),
  );
}
