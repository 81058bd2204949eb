import { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { allowanceToLast } from '../../forecast/inverse/allowance-to-last.js';
import { lifeOfAllowances } from '../../forecast/inverse/life-of-allowances.js';
import { acceptSuggestion } from '../../forecast/suggestions/accept-suggestion.js';
import { addDaysIso } from '../../records/dates.js';
import { measureId, measures, side as sideSchema } from '../../records/measure.js';
import { actorOf } from '../access.js';
import { checkAsked, earliest, furthest, lastDayAsked } from '../asked-dates.js';
import { posteriorOf } from '../child-view/load-child.js';
import type { ServiceDeps } from '../dependencies.js';
import { write } from '../write.js';
import { type Api, clinical, planning, route } from './api.js';
import { date, id, idParams, itemsOf, listOf } from './schemas/common.js';
import { assessment, forecast } from './schemas/derived.js';
import { revision } from './schemas/records.js';

const tags = ['Forecasts'];
const WHAT_IF_DRAWS = 600;

export function derivedRoutes(api: Api, deps: ServiceDeps): void {
  forecastRoutes(api, deps);
  whatIfRoute(api, deps);
  suggestionRoute(api, deps);
}

function forecastRoutes(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  api.get(
    '/children/:id/assessment',
    route(
      clinical,
      tags,
      'Forecasts, flags and suggestions as of today, with what they were computed from',
      { 200: assessment },
      { params: idParams },
    ),
    async (request) => {
      await store.audit.record(actorOf(request), 'read', 'assessment', { childId: request.params.id });
      return deps.assess(request.params.id);
    },
  );

  api.get(
    '/children/:id/forecasts',
    route(
      planning,
      tags,
      'When each device is outgrown, as a chance over dates',
      { 200: itemsOf(forecast) },
      { params: idParams },
    ),
    async (request) => {
      await store.forecasts.latestByChild(request.params.id, actorOf(request));
      return { items: (await deps.assess(request.params.id)).forecasts };
    },
  );

  api.get(
    '/devices/:id/forecasts',
    route(
      planning,
      tags,
      'What was forecast for this device over time, oldest first',
      {
        200: itemsOf(
          z.object({
            deviceId: z.string(),
            today: date,
            outcome: z.string(),
            p10: date.nullable(),
            p50: date.nullable(),
            p90: date.nullable(),
            inputsHash: z.string(),
            modelVersion: z.string(),
          }),
        ),
      },
      { params: idParams },
    ),
    async (request) => {
      await store.devices.get(request.params.id, actorOf(request));
      return { items: await store.forecasts.history([request.params.id]) };
    },
  );
}

function whatIfRoute(api: Api, deps: ServiceDeps): void {
  const { store, clock, assessor } = deps;
  api.post(
    '/children/:id/what-if',
    route(
      clinical,
      tags,
      'How long would a device cast today last with so much room, and how much room lasts so long?',
      {
        200: z.object({
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
        }),
      },
      {
        description: 'Nothing is stored. `odds` is the chance with which the room must last until `until`.',
        params: idParams,
        body: z.object({
          measure: measureId,
          sides: z.array(sideSchema).min(1).max(2),
          castDate: date.optional().describe('today when absent'),
          allowancesMm: z.array(z.number().min(0).max(200)).max(60).default([]),
          lastUntil: z
            .array(z.object({ until: date, odds: z.number().gt(0).lt(1) }))
            .max(20)
            .default([]),
        }),
      },
    ),
    async (request) => {
      const { measure, sides, castDate, allowancesMm, lastUntil } = request.body;
      const record = await store.children.record(request.params.id, actorOf(request));
      const assessing = await assessor.current();
      const posterior = posteriorOf(record, deps);
      if (posterior === null) {
        const { growth } = assessing.live(record);
        const why = growth.kind === 'posterior' ? 'a value in the record cannot be' : growth.advice;
        throw new DoorpostError('invalid-value', `Nothing can be said of this child yet: ${why}`);
      }
      for (const side of sides)
        if (measures[measure].sided !== (side !== 'none'))
          throw new DoorpostError('invalid-value', `${measures[measure].label} has no side '${side}'`, {
            field: 'sides',
            given: side,
            accepted: measures[measure].sided ? 'left, right' : 'none',
          });
      const today = clock.today();
      const cast = castDate ?? today;
      checkAsked('castDate', cast, earliest(today), furthest(today));
      for (const { until } of lastUntil)
        checkAsked('until', until, addDaysIso(cast, 1), lastDayAsked(record.child.birthDate, cast));
      const { seed, model } = assessing.context;
      const question = {
        posterior,
        series: sides.map((side) => ({ measure, side })),
        castDate: cast,
        draws: WHAT_IF_DRAWS,
        seed,
      };
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

function suggestionRoute(api: Api, { store, clock, assessor }: ServiceDeps): void {
  api.post(
    '/children/:id/suggestions/:suggestionId/acceptance',
    route(
      clinical,
      tags,
      'Accept a suggested correction of readings; the originals stay and it can be undone',
      { 201: itemsOf(revision) },
      { params: z.object({ id, suggestionId: z.string().min(1).max(300) }), body: z.object({}).nullish() },
    ),
    async (request, reply) => {
      const assessing = await assessor.current();
      return write(store, request, reply, async (tx, actor) => {
        const record = await tx.children.record(request.params.id, actor);
        const suggestion = assessing
          .live(record)
          .suggestions.find((s) => s.id === request.params.suggestionId);
        if (!suggestion)
          throw new DoorpostError('not-found', 'There is no such suggestion any more', {
            field: 'suggestionId',
          });
        const items = [];
        for (const c of acceptSuggestion(record, suggestion))
          items.push(
            await tx.measurements.correct(
              c.measurementId,
              { value: c.value, side: c.side, withdrawn: c.excluded, reason: c.reason.slice(0, 400) },
              clock.today(),
              null,
              actor,
            ),
          );
        return { status: 201, body: { items } };
      });
    },
  );
}
