import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { measureId } from '../../records/measure.js';
import { childRecord, LONGEST_REASON } from '../../records/records.js';
import { clinicians, staff, writersOf } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import {
  chartableMeasures,
  growthSpec,
  scoredReadings,
  timelineSpec,
} from '../../service/child-view/child-charts.js';
import { loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { takeSuggestion } from '../../service/take-suggestion.js';
import { undoCorrection } from '../../service/undo-correction.js';
import type { ChildSearch } from '../../store/contract.js';
import { drawFor, NOT_DRAWN } from '../parts/chart.js';
import { childPath } from '../parts/paths.js';
import { refusalOf } from '../parts/refusal-of.js';
import type { Fields } from '../parts/route-types.js';
import { readChildForm } from './child-form.js';
import { ChildPage } from './child-page.js';
import { ChildrenPage } from './children-page.js';
import { NewChildPage, newChildFields } from './new-child-page.js';
import { typedSize } from './typed-size.js';

const ROWS = 50;
type Child = { Params: { id: string }; Querystring: Fields; Body: Fields };

export function registerChildPages(app: FastifyInstance, deps: ServiceDeps): void {
  searchPage(app, deps);
  newChildPages(app, deps);
  childPages(app, deps);
  correctionPages(app, deps);
}

function searchPage(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  app.get<{ Querystring: Fields }>('/children', { config: { access: staff } }, async (request, reply) => {
    const { text = '', family = '', status = 'active', sort, cursor } = request.query;
    const query: ChildSearch = {
      text: text.slice(0, 80),
      family: family || undefined,
      status: (['moved-away', 'discharged', 'died', 'any'] as const).find((s) => s === status) ?? 'active',
      sort: sort === 'name' ? 'name' : 'soonest',
    };
    const actor = actorOf(request);
    const found = (slip: boolean) =>
      store.children.search({ ...query, slip }, { limit: ROWS, cursor: cursor || null }, actor);
    const exact = await found(false);
    const slip = text.trim() !== '' && exact.items.length === 0;
    const page = slip ? await found(true) : exact;
    const [only, ...more] = page.items;
    // Whoever typed enough for one child wants that child.
    if (text.trim() !== '' && !slip && !cursor && only && more.length === 0)
      return reply.redirect(childPath(only.id), 303);
    const whole = !cursor && page.nextCursor === null;
    const total = whole ? page.items.length : await store.children.count({ ...query, slip });
    return reply.page(
      <ChildrenPage
        query={query}
        page={page}
        total={total}
        firstPage={!cursor}
        nearest={slip && total > 0}
      />,
    );
  });
}

function newChildPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { clock } = deps;
  /** A child of whom nothing is known yet; the day it was born is not guessed. */
  const blank = (id: string) =>
    ({ ...childRecord.parse({ id: 'new', birthDate: clock.today(), sex: 'unknown' }), id }) as const;

  app.get('/children/new', { config: { access: writersOf.newChildren } }, (_request, reply) =>
    reply.page(<NewChildPage read={{ typed: blank(''), raw: { birthDate: '' }, errors: {} }} error="" />),
  );

  app.post<{ Body: Fields }>(
    '/children',
    { config: { access: writersOf.newChildren } },
    async (request, reply) => {
      const body = request.body ?? {};
      const read = readChildForm(body, blank(body.id ?? ''), newChildFields, null);
      const id = childRecord.shape.id.safeParse(body.id);
      const error = id.success ? '' : `id: ${id.error.issues[0].message}`;
      if (error || Object.keys(read.errors).length > 0)
        return reply.page(<NewChildPage read={read} error={error} />, 422);
      const refused = await refusalOf(
        reply.save(async (tx, actor) => {
          await tx.children.create(read.typed, clock.today(), actor);
          return childPath(read.typed.id);
        }),
      );
      return refused ? reply.page(<NewChildPage read={read} error={refused} />, 422) : reply;
    },
  );
}

function childPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  app.get<Child>('/children/:id', { config: { access: staff } }, async (request, reply) => {
    const { id } = request.params;
    const today = clock.today();
    const clinical = request.user?.role === 'clinician';
    const view = await loadChildFor(request, id, deps);
    const chartable = chartableMeasures(view);
    const measure = chartable.find((m) => m === request.query.measure) ?? chartable[0] ?? null;
    const posterior = clinical ? posteriorOf(view.record, deps) : null;
    const clinicians = async () =>
      Promise.all([
        measure
          ? drawFor(request, (widthPx) => growthSpec(view, measure, posterior, today, { widthPx }))
          : NOT_DRAWN,
        view.record.devices.length > 0
          ? drawFor(request, (widthPx) => timelineSpec(view, today, widthPx))
          : NOT_DRAWN,
        store.familyLinks.list(id, actorOf(request)),
        store.familyQuestions.ofChild(id),
        store.measurements.corrected(id, actorOf(request)),
      ]);
    const [growth, timeline, links, questions, revisions] = clinical
      ? await clinicians()
      : ([NOT_DRAWN, NOT_DRAWN, [], [], []] as const);
    return reply.page(
      <ChildPage
        view={view}
        chartable={chartable}
        measure={measure}
        growth={growth}
        timeline={timeline}
        readings={measure ? scoredReadings(view, measure, posterior) : []}
        tempo={posterior?.tempoYears ?? null}
        links={links}
        questions={questions}
        revisions={revisions}
        clinical={clinical}
      />,
    );
  });

  app.get<Child>('/children/:id/charts/growth.json', { config: { access: clinicians } }, async (request) => {
    const view = await loadChildFor(request, request.params.id, deps);
    const measure = measureId.parse(request.query.measure);
    return growthSpec(view, measure, posteriorOf(view.record, deps), clock.today());
  });

  app.get<Child>('/children/:id/charts/timeline.json', { config: { access: clinicians } }, async (request) =>
    timelineSpec(await loadChildFor(request, request.params.id, deps), clock.today()),
  );
}

function correctionPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  app.post<Child>(
    '/children/:id/suggestions',
    { config: { access: writersOf.measurements } },
    async (request, reply) => {
      const { id } = request.params;
      const actor = actorOf(request);
      const record = await store.children.record(id, actor);
      const { suggestions } = await deps.assess(id);
      const suggestion = suggestions.find((s) => s.id === request.body?.suggestion);
      if (!suggestion)
        throw new DoorpostError(
          'not-found',
          'This suggestion does not stand any more: the record has changed',
        );
      return reply.save(async (tx) => {
        await takeSuggestion(tx, record, suggestion, clock.today(), actor);
        return `${childPath(id)}?notice=suggestion-accepted`;
      });
    },
  );

  app.post<Child>(
    '/children/:id/corrections',
    { config: { access: writersOf.measurements } },
    async (request, reply) => {
      const { id } = request.params;
      const { reading, value: typed = '', reason = '' } = request.body ?? {};
      const actor = actorOf(request);
      const record = await store.children.record(id, actor);
      const found = record.measurements.find((m) => m.id === reading);
      if (!found) throw new DoorpostError('not-found', 'This child has no such reading');
      const value = typed.trim() === '' ? null : typedSize(typed, found.measure, 'mm');
      if (typed.trim() !== '' && value === null)
        throw new DoorpostError('invalid-value', `The value '${typed}' is no size`, {
          field: 'value',
          given: typed,
          accepted:
            'a number, with mm, cm, inch, kg or lb behind it if needed; empty to leave the reading out',
        });
      const change = value === null ? { withdrawn: true } : { value };
      return reply.save(async (tx) => {
        const why = reason.slice(0, LONGEST_REASON) || 'corrected';
        await tx.measurements.correct(found.id, { ...change, reason: why }, clock.today(), null, actor);
        return `${childPath(id)}?notice=suggestion-accepted`;
      });
    },
  );

  app.post<Child>(
    '/children/:id/corrections/undo',
    { config: { access: writersOf.measurements } },
    (request, reply) =>
      reply.save(async (tx, actor) => {
        const { id } = request.params;
        const all = await tx.measurements.corrected(id, actor);
        const reading = all.find((r) => r.measurement.id === request.body?.reading)?.measurement.id;
        if (!reading) throw new DoorpostError('not-found', 'No reading of this child was corrected so');
        await undoCorrection(tx, reading, clock.today(), actor);
        return `${childPath(id)}?notice=suggestion-undone`;
      }),
  );
}
