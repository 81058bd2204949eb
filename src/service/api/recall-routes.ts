import { z } from 'zod';
import { actionIds, workStates } from '../../recall/contract.js';
import type { ClinicWeekInput } from '../../recall/level/clinic-week.js';
import { ringAgainOf } from '../../recall/ring-again.js';
import { callState, jobRun, type RecallRow, recallListNames, recallRun } from '../../store/contract.js';
import { checkAsked, earliest, furthest } from '../asked-dates.js';
import { clinicWeekOf } from '../clinic-week-of.js';
import type { Clock } from '../clock.js';
import type { ServiceDeps } from '../dependencies.js';
import { seeNowPlaces } from '../see-now-places.js';
import { setRecallState, undoRecallState } from '../set-recall-state.js';
import { type Api, everyday, planning, routesOf, tagged } from './api.js';
import { date, itemsOf, jobStarted, listOf, noBody, pageOf, pageQuery } from './schemas/common.js';
import { recallRow } from './schemas/derived.js';

const listMonth = z
  .string()
  .max(7)
  .regex(/^\d{4}-(0[1-9]|1[0-2])$/)
  .optional()
  .describe('YYYY-MM; today and the next five weeks when absent');
const dayPlaces = z.object({ day: date, places: z.number(), booked: z.number(), free: z.number() });

export function recallRoutes(api: Api, deps: ServiceDeps): void {
  listRoutes(api, deps);
  entriesRoute(api, deps);
  entryRoutes(api, deps);
  jobRoutes(api, deps);
}

function listRoutes(api: Api, deps: ServiceDeps): void {
  const { store, jobs } = deps;
  const { act, get } = routesOf(api, deps, ['Recall']);
  get(
    '/recall-runs',
    planning,
    'Recall lists made so far, newest first',
    { querystring: pageQuery, 200: pageOf(recallRun) },
    ({ query }) => store.recall.runs(query),
  );
  act(
    'POST /recall-runs',
    planning,
    'Make the list anew (a job), for the weeks ahead or a month; calls and appointments stand, as few weeks move as can be',
    { body: z.object({ month: listMonth }), 202: jobStarted },
    async ({ body: { month }, today, actor }) => {
      const first = month ? `${month}-01` : null;
      if (first) checkAsked('month', first, earliest(today), furthest(today));
      const jobRunId = await jobs.startRecallRun(first);
      await store.audit.record(actor, 'start', 'recall-run', { runId: jobRunId });
      return { jobRunId };
    },
  );
  get('/recall-runs/latest', planning, 'The list in use', { 200: recallRun.nullable() }, () =>
    store.recall.latestRun(),
  );
  get(
    '/recall-runs/:id',
    planning,
    'One list: numbers and what it was computed from',
    { 200: recallRun },
    ({ id }) => store.recall.run(id),
  );
}

function entriesRoute(api: Api, deps: ServiceDeps): void {
  const { store, clock } = deps;
  routesOf(api, deps, ['Recall']).get(
    '/recall-runs/:id/entries',
    planning,
    'Who must be called, for what, by when and why; in order of urgency',
    {
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
      200: itemsOf(recallRow).extend({
        groups: listOf(z.object({ action: z.enum(actionIds), entryIds: listOf(z.string()) })),
        seeNow: z
          .object({ wanted: z.number(), days: listOf(dayPlaces) })
          .describe('how many must be seen now, and the places of today and the next working day'),
      }),
    },
    async ({ id, query, today, actor }) => {
      await store.recall.run(id);
      const items = await store.recall.entries(id, query, actor);
      const { value: settings } = await store.settings.get();
      const week = clinicWeekOf(settings);
      const groups = actionIds.map((action) => ({
        action,
        entryIds: items.filter((r) => r.entry.action === action).map((r) => r.id),
      }));
      return {
        items: items.map((r) => withRingAgain(r, clock, week)),
        groups: groups.filter((g) => g.entryIds.length > 0),
        seeNow: seeNowPlaces(items, settings, today),
      };
    },
  );
}

const withRingAgain = (row: RecallRow, clock: Clock, week: ClinicWeekInput) => ({
  ...row,
  ringAgainOn: ringAgainOf(row, (moment) => clock.dayOf(new Date(moment)), week),
});

function entryRoutes(api: Api, deps: ServiceDeps): void {
  const asRead = async (row: RecallRow) => {
    const { value: settings } = await deps.store.settings.get();
    return tagged({ value: withRingAgain(row, deps.clock, clinicWeekOf(settings)), version: row.version });
  };
  const { get, write } = routesOf(api, deps, ['Recall']);
  get('/recall-entries/:id', planning, 'One entry', { 200: recallRow }, async ({ id, actor }) =>
    asRead(await deps.store.recall.entry(id, actor)),
  );
  write(
    'PUT /recall-entries/:id/state',
    planning,
    'Say how the work with this family stands',
    {
      body: callState,
      200: recallRow,
    },
    async ({ tx, id, body, expected, today, actor }) =>
      asRead(await setRecallState(tx, id, body, expected, today, actor)),
  );
  write(
    'POST /recall-entries/:id/undo',
    planning,
    'Take the last change of state back',
    { body: noBody, 200: recallRow },
    async ({ tx, id, today, actor }) => asRead(await undoRecallState(tx, id, today, actor)),
  );
}

function jobRoutes(api: Api, deps: ServiceDeps): void {
  const { store, jobs } = deps;
  const { act, get } = routesOf(api, deps, ['Jobs']);
  get('/jobs', everyday, 'The last 20 jobs', { 200: itemsOf(jobRun) }, async () => ({
    items: await store.jobRuns.latest(),
  }));
  get('/jobs/:id', everyday, 'How far a job is', { 200: jobRun }, ({ id }) => store.jobRuns.get(id));
  act(
    'POST /jobs/forecasts',
    everyday,
    'Compute every forecast anew (as every night)',
    { body: noBody, 202: jobStarted },
    async ({ actor }) => {
      const jobRunId = await jobs.startForecasts();
      await store.audit.record(actor, 'start', 'forecasts');
      return { jobRunId };
    },
  );
}
