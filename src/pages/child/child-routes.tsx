import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { LONGEST_REASON } from '../../records/records.js';
import { staff, writersOf } from '../../records/roles.js';
import {
  chartableMeasures,
  growthSpec,
  scoredReadings,
  timelineSpec,
} from '../../service/child-view/child-charts.js';
import { type ChildView, loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { takeSuggestion } from '../../service/take-suggestion.js';
import { undoCorrection } from '../../service/undo-correction.js';
import type { ChildSearch } from '../../store/contract.js';
import { drawFor, NOT_DRAWN } from '../parts/chart.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { childPath } from '../parts/paths.js';
import { ChildPage } from './child-page.js';
import { ChildrenPage } from './children-page.js';
import { typedSize } from './typed-size.js';

const ROWS = 50;

export function registerChildPages(app: FastifyInstance, deps: ServiceDeps): void {
  searchPage(app, deps);
  childPages(app, deps);
  correctionPages(app, deps);
}

function searchPage(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  pagesOf(app, deps).get('/children', staff, async ({ query: asked, reply, actor }) => {
    const { text = '', family = '', status = 'active', sort, cursor } = asked;
    const query: ChildSearch = {
      text: text.slice(0, 80),
      family: family || undefined,
      status: (['moved-away', 'discharged', 'died', 'any'] as const).find((s) => s === status) ?? 'active',
      sort: sort === 'name' ? 'name' : 'soonest',
    };
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
    const nearest = slip && total > 0;
    return <ChildrenPage query={query} page={page} total={total} firstPage={!cursor} nearest={nearest} />;
  });
}

function childPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get } = pagesOf(app, deps);
  const forClinicians = async (view: ChildView, { request, id, query, actor, today }: Asked) => {
    const chartable = chartableMeasures(view);
    const measure = chartable.find((m) => m === query.measure) ?? chartable[0] ?? null;
    const posterior = posteriorOf(view.record, deps);
    const [growth, timeline, links, questions, revisions] = await Promise.all([
      measure
        ? drawFor(request, (widthPx) => growthSpec(view, measure, posterior, today, { widthPx }))
        : NOT_DRAWN,
      view.record.devices.length > 0
        ? drawFor(request, (widthPx) => timelineSpec(view, today, widthPx))
        : NOT_DRAWN,
      store.familyLinks.list(id, actor),
      store.familyQuestions.ofChild(id),
      store.measurements.corrected(id, actor),
    ]);
    const readings = measure ? scoredReadings(view, measure, posterior) : [];
    const tempo = posterior?.tempoYears ?? null;
    return { chartable, measure, growth, timeline, readings, tempo, links, questions, revisions };
  };
  get('/children/:id', staff, async (asked) => {
    const view = await loadChildFor(asked.request, asked.id, deps);
    const clinical = asked.actor.role === 'clinician' ? await forClinicians(view, asked) : null;
    return <ChildPage view={view} clinical={clinical} />;
  });
}

function correctionPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { post, save } = pagesOf(app, deps);
  const writers = writersOf.measurements;
  post('/children/:id/suggestions', writers, async ({ reply, id, body, actor, today }) => {
    const record = await store.children.record(id, actor);
    const { suggestions } = await deps.assess(id);
    const suggestion = suggestions.find((s) => s.id === body.suggestion);
    if (!suggestion)
      throw new DoorpostError('not-found', 'This suggestion does not stand any more: the record has changed');
    return reply.save(async (tx) => {
      await takeSuggestion(tx, record, suggestion, today, actor);
      return childPath(id, '?notice=suggestion-accepted');
    });
  });

  save('/children/:id/corrections', writers, async ({ tx, id, body, actor, today }) => {
    const { reading, value: typed = '', reason = '' } = body;
    const found = (await store.children.record(id, actor)).measurements.find((m) => m.id === reading);
    if (!found) throw new DoorpostError('not-found', 'This child has no such reading');
    const value = typed.trim() === '' ? null : typedSize(typed, found.measure, 'mm');
    if (typed.trim() !== '' && value === null)
      throw new DoorpostError('invalid-value', `The value '${typed}' is no size`, {
        field: 'value',
        given: typed,
        accepted: 'a number, with mm, cm, inch, kg or lb behind it if needed; empty to leave the reading out',
      });
    const why = reason.slice(0, LONGEST_REASON) || 'corrected';
    const change = value === null ? { withdrawn: true } : { value };
    await tx.measurements.correct(found.id, { ...change, reason: why }, today, null, actor);
    return childPath(id, '?notice=suggestion-accepted');
  });

  save('/children/:id/corrections/undo', writers, async ({ tx, id, body, actor, today }) => {
    const all = await tx.measurements.corrected(id, actor);
    const reading = all.find((r) => r.measurement.id === body.reading)?.measurement.id;
    if (!reading) throw new DoorpostError('not-found', 'No reading of this child was corrected so');
    await undoCorrection(tx, reading, today, actor);
    return childPath(id, '?notice=suggestion-undone');
  });
}
