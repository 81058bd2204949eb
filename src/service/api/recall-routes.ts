import { z } from 'zod';
import { actionIds, workStates } from '../../recall/contract.js';
import { nextPlaces } from '../../recall/level/next-places.js';
import { recallListNames } from '../../store/contract.js';
import { actorOf } from '../access.js';
import { checkAsked, earliest, furthest } from '../asked-dates.js';
import { clinicWeekOf } from '../clinic-week-of.js';
import type { ServiceDeps } from '../dependencies.js';
import { setRecallState, undoRecallState } from '../set-recall-state.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, everyday, planning, route } from './api.js';
import { date, idParams, itemsOf, jobStarted, listOf, pageOf, pageQuery } from './schemas/common.js';
import { jobRun, recallRow, recallRun } from './schemas/derived.js';

const tags = ['Recall'];
const dayPlaces = z.object({ day: date, places: z.number(), booked: z.number(), free: z.number() });

export function recallRoutes(api: Api, deps: ServiceDeps): void {
  listRoutes(api, deps);
  entriesRoute(api, deps);
  entryRoutes(api, deps);
  jobRoutes(api, deps);
}

function listRoutes(api: Api, { store, clock, jobs }: ServiceDeps): void {
  api.get(
    '/recall-runs',
    route(
      planning,
      tags,
      'Recall lists made so far, newest first',
      { 200: pageOf(recallRun) },
      { querystring: pageQuery },
    ),
    async (request) => store.recall.runs(request.query),
  );

  api.post(
    '/recall-runs',
    route(
      planning,
      tags,
      'Make the list anew (a job), for the weeks ahead or a month; calls and appointments stand, as few weeks move as can be',
      { 202: jobStarted },
      {
        body: z.object({
          month: z
            .string()
            .max(7)
            .regex(/^\d{4}-(0[1-9]|1[0-2])$/)
            .optional()
            .describe('YYYY-MM; today and the next five weeks when absent'),
        }),
      },
    ),
    async (request, reply) => {
      const { month } = request.body;
      const first = month ? `${month}-01` : null;
      if (first) checkAsked('month', first, earliest(clock.today()), furthest(clock.today()));
      const jobRunId = await jobs.startRecallRun(first);
      await store.audit.record(actorOf(request), 'start', 'recall-run', { runId: jobRunId });
      return reply.code(202).send({ jobRunId });
    },
  );

  api.get(
    '/recall-runs/latest',
    route(planning, tags, 'The list in use', { 200: recallRun.nullable() }),
    async (_request, reply) => reply.send(await store.recall.latestRun()),
  );

  api.get(
    '/recall-runs/:id',
    route(
      planning,
      tags,
      'One list: numbers and what it was computed from',
      { 200: recallRun },
      { params: idParams },
    ),
    async (request) => store.recall.run(request.params.id),
  );
}

function entriesRoute(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/recall-runs/:id/entries',
    route(
      planning,
      tags,
      'Who must be called, for what, by when and why; in order of urgency',
      {
        200: itemsOf(recallRow).extend({
          groups: listOf(z.object({ action: z.enum(actionIds), entryIds: listOf(z.string()) })),
          seeNow: z
            .object({ wanted: z.number(), days: listOf(dayPlaces) })
            .describe('how many must be seen now, and the places of today and the next working day'),
        }),
      },
      {
        params: idParams,
        querystring: z.object({
          list: z.enum(recallListNames).optional(),
          state: z.enum(workStates).optional(),
          action: z.enum(actionIds).optional(),
          overdue: z
            .enum(['true', 'false'])
            .transform((v) => v === 'true')
            .optional(),
          childId: z.string().max(80).optional(),
        }),
      },
    ),
    async (request) => {
      await store.recall.run(request.params.id);
      const actor = actorOf(request);
      const items = await store.recall.entries(request.params.id, request.query, actor);
      const { value: settings } = await store.settings.get();
      const booked = items.flatMap((r) => (r.state === 'booked' && r.appointment ? [r.appointment] : []));
      const groups = actionIds.map((action) => ({
        action,
        entryIds: items.filter((r) => r.entry.action === action).map((r) => r.id),
      }));
      return {
        items,
        groups: groups.filter((g) => g.entryIds.length > 0),
        seeNow: {
          wanted: items.filter((r) => r.entry.action === 'see-now' && r.state !== 'done').length,
          days: nextPlaces(clinicWeekOf(settings), booked, clock.today()),
        },
      };
    },
  );
}

function entryRoutes(api: Api, { store, clock }: ServiceDeps): void {
  api.get(
    '/recall-entries/:id',
    route(planning, tags, 'One entry', { 200: recallRow }, { params: idParams }),
    async (request, reply) => {
      const row = await store.recall.entry(request.params.id, actorOf(request));
      return reply.headers(etag(row.version)).send(row);
    },
  );

  api.put(
    '/recall-entries/:id/state',
    route(
      planning,
      tags,
      'Say how the work with this family stands',
      { 200: recallRow },
      {
        params: idParams,
        body: z.object({
          state: z
            .enum(workStates)
            .describe('declined: not in the week offered; the next list gives another'),
          note: z.string().max(400).default(''),
          appointment: date
            .nullable()
            .optional()
            .describe(
              'the day booked; left out it stays as it was, and a booking without a day is for the planned week',
            ),
        }),
      },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const row = await setRecallState(
          tx,
          request.params.id,
          request.body,
          expectedVersion(request),
          clock.today(),
          actor,
        );
        return { status: 200, body: row, headers: etag(row.version) };
      }),
  );

  api.post(
    '/recall-entries/:id/undo',
    route(
      planning,
      tags,
      'Take the last change of state back',
      { 200: recallRow },
      { params: idParams, body: z.object({}).nullish() },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const row = await undoRecallState(tx, request.params.id, clock.today(), actor);
        return { status: 200, body: row, headers: etag(row.version) };
      }),
  );
}

function jobRoutes(api: Api, { store, jobs }: ServiceDeps): void {
  api.get('/jobs', route(everyday, ['Jobs'], 'The last 20 jobs', { 200: itemsOf(jobRun) }), async () => ({
    items: await store.jobRuns.latest(),
  }));

  api.get(
    '/jobs/:id',
    route(everyday, ['Jobs'], 'How far a job is', { 200: jobRun }, { params: idParams }),
    async (request) => store.jobRuns.get(request.params.id),
  );

  api.post(
    '/jobs/forecasts',
    route(
      everyday,
      ['Jobs'],
      'Compute every forecast anew (as every night)',
      { 202: jobStarted },
      { body: z.object({}).nullish() },
    ),
    async (request, reply) => {
      const jobRunId = await jobs.startForecasts();
      await store.audit.record(actorOf(request), 'start', 'forecasts');
      return reply.code(202).send({ jobRunId });
    },
  );
}
