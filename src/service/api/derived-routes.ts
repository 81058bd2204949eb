import { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { allowanceToLast } from '../../forecast/inverse/allowance-to-last.js';
import { canAnswer } from '../../forecast/inverse/growth-from-cast.js';
import { lifeOfAllowances } from '../../forecast/inverse/life-of-allowances.js';
import { addDaysIso } from '../../records/dates.js';
import { type MeasureId, measureId, measures, type Side, side as sideSchema } from '../../records/measure.js';
import { checkAsked, earliest, furthest, lastDayAsked } from '../asked-dates.js';
import { posteriorOf } from '../child-view/load-child.js';
import type { ServiceDeps } from '../dependencies.js';
import { takeSuggestion } from '../take-suggestion.js';
import { write } from '../write.js';
import { type Api, clinical, planning, routesOf, writing } from './api.js';
import { date, failures, id, itemsOf, listOf, noBody } from './schemas/common.js';
import { assessment, forecast } from './schemas/derived.js';
import { revision } from './schemas/records.js';

const WHAT_IF_DRAWS = 600;
const pastForecast = z.object({
  deviceId: z.string(),
  today: date,
  outcome: z.string(),
  p10: date.nullable(),
  p50: date.nullable(),
  p90: date.nullable(),
  inputsHash: z.string(),
  modelVersion: z.string(),
});

export function derivedRoutes(api: Api, deps: ServiceDeps): void {
  forecastRoutes(api, deps);
  whatIfRoute(api, deps);
  suggestionRoute(api, deps);
}

function forecastRoutes(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get } = routesOf(api, deps, ['Forecasts']);
  get(
    '/children/:id/assessment',
    clinical,
    'Forecasts, flags and suggestions as of today, with what they were computed from',
    { 200: assessment },
    async ({ id, actor }) => {
      await store.audit.record(actor, 'read', 'assessment', { childId: id });
      return deps.assess(id);
    },
  );
  get(
    '/children/:id/forecasts',
    planning,
    'When each device is outgrown, as a chance over dates',
    { 200: itemsOf(forecast) },
    async ({ id, actor }) => {
      await store.forecasts.latestByChild(id, actor);
      return { items: (await deps.assess(id)).forecasts };
    },
  );
  get(
    '/devices/:id/forecasts',
    planning,
    'What was forecast for this device over time, oldest first',
    { 200: itemsOf(pastForecast) },
    async ({ id, actor }) => {
      await store.devices.get(id, actor);
      return { items: await store.forecasts.history([id]) };
    },
  );
}

const whatIfAnswer = z.object({
  lives: listOf(
    z.object({
      allowanceMm: z.number(),
      p10: date.nullable(),
      p50: date.nullable(),
      p90: date.nullable(),
    }),
  ),
  needed: listOf(z.object({ until: date, odds: z.number(), allowanceMm: z.number() })),
  modelVersion: z.string(),
  seed: z.number(),
});
const whatIfQuestion = z.object({
  measure: measureId,
  sides: z.array(sideSchema).min(1).max(2),
  castDate: date.optional().describe('today when absent'),
  allowancesMm: z.array(z.number().min(0).max(200)).max(60).default([]),
  lastUntil: z
    .array(z.object({ until: date, odds: z.number().gt(0).lt(1) }))
    .max(20)
    .default([]),
});

function whatIfRoute(api: Api, deps: ServiceDeps): void {
  const { store, assessor } = deps;
  routesOf(api, deps, ['Forecasts']).act(
    'POST /children/:id/what-if',
    clinical,
    'How long would a device cast today last with so much room, and how much room lasts so long?',
    {
      description: 'Nothing is stored. `odds` is the chance with which the room must last until `until`.',
      body: whatIfQuestion,
      200: whatIfAnswer,
    },
    async ({ id, body, today, actor }) => {
      const { measure, sides, castDate: cast = today, allowancesMm, lastUntil } = body;
      const record = await store.children.record(id, actor);
      const assessing = await assessor.current();
      const posterior = posteriorOf(record, deps);
      if (posterior === null) {
        const { growth } = assessing.live(record);
        const why = growth.kind === 'posterior' ? 'a value in the record cannot be' : growth.advice;
        throw new DoorpostError('invalid-value', `Nothing can be said of this child yet: ${why}`);
      }
      refuseOtherSides(measure, sides);
      checkAsked('castDate', cast, earliest(today), furthest(today));
      for (const { until } of lastUntil)
        checkAsked('until', until, addDaysIso(cast, 1), lastDayAsked(record.child.birthDate, cast));
      const { seed, model } = assessing.context;
      const question = {
        posterior,
        model,
        measurements: record.measurements,
        series: sides.map((side) => ({ measure, side })),
        castDate: cast,
        draws: WHAT_IF_DRAWS,
        seed,
      };
      if (!canAnswer(question))
        throw new DoorpostError(
          'invalid-value',
          `No growth reference tells how ${measures[measure].label.toLowerCase()} grows in this child`,
          { field: 'measure', given: measure, accepted: model.measures.join(', ') },
        );
      return {
        lives: allowancesMm.length > 0 ? lifeOfAllowances(question, allowancesMm) : [],
        needed: lastUntil.map(({ until, odds }) => ({
          until,
          odds,
          allowanceMm: allowanceToLast(question, until, odds),
        })),
        modelVersion: model.version,
        seed,
      };
    },
  );
}

function refuseOtherSides(measure: MeasureId, sides: readonly Side[]): void {
  const { label, sided } = measures[measure];
  const given = sides.find((side) => sided !== (side !== 'none'));
  if (given)
    throw new DoorpostError('invalid-value', `${label} has no side '${given}'`, {
      field: 'sides',
      given,
      accepted: sided ? 'left, right' : 'none',
    });
}

function suggestionRoute(api: Api, { store, clock, assessor }: ServiceDeps): void {
  api.post(
    '/children/:id/suggestions/:suggestionId/acceptance',
    {
      config: writing('measurements'),
      schema: {
        tags: ['Forecasts'],
        summary: 'Accept a suggested correction of readings; the originals stay and it can be undone',
        params: z.object({ id, suggestionId: z.string().min(1).max(300) }),
        body: noBody,
        response: { 201: itemsOf(revision), ...failures },
      },
    },
    async (request, reply) => {
      // Before the transaction: it asks the database on a connection of its own.
      const assessing = await assessor.current();
      return write(store, request, reply, async (tx, actor) => {
        const record = await tx.children.record(request.params.id, actor);
        const { suggestions } = assessing.live(record);
        const suggestion = suggestions.find((s) => s.id === request.params.suggestionId);
        if (!suggestion)
          throw new DoorpostError('not-found', 'There is no such suggestion any more', {
            field: 'suggestionId',
          });
        return {
          status: 201,
          body: { items: await takeSuggestion(tx, record, suggestion, clock.today(), actor) },
        };
      });
    },
  );
}
