import { referenceCentiles } from '../../charts/centile-rows.js';
import { wantedOf } from '../../charts/device-key.js';
import { deviceTimeline } from '../../charts/device-timeline.js';
import type { Spec } from '../../charts/fill-spec.js';
import { growthChart } from '../../charts/growth-chart.js';
import { type ChildPosterior, GROSS } from '../../growth/contract.js';
import { populationChartsMislead } from '../../growth/population/condition-effects.js';
import { dayNumber, type IsoDate } from '../../records/dates.js';
import { type MeasureId, measureIds, type Side } from '../../records/measure.js';
import { loadReferences } from '../../reference/reference.js';
import type { ChildView } from './load-child.js';

/** Measures with a reading or a device limit, the one that limits first in front. */
export function chartableMeasures(view: ChildView): MeasureId[] {
  const driver = view.inUse
    .flatMap((v) => v.forecast.drivers.map((d) => ({ measure: d.series.measure, share: d.share })))
    .toSorted((a, b) => b.share - a.share)[0]?.measure;
  const present = new Set<MeasureId>([
    ...view.record.measurements.map((m) => m.measure),
    ...view.inUse.flatMap((v) => v.forecast.room.map((r) => r.series.measure)),
  ]);
  if (view.record.measurements.length === 0) return [];
  const rest = measureIds.filter((m) => present.has(m) && m !== driver);
  return driver ? [driver, ...rest] : rest;
}

export function growthSpec(
  view: ChildView,
  measure: MeasureId,
  posterior: ChildPosterior | null,
  today: IsoDate,
  options: {
    readonly audience?: 'clinician' | 'family';
    readonly language?: string;
    readonly widthPx?: number;
  } = {},
): Spec {
  const { child } = view.record;
  const unsuited = populationChartsMislead(child.conditions);
  const family = options.audience === 'family';
  const shown = view.inUse
    .map((v) => v.forecast)
    .filter((f) => f.outcome === 'forecast' || f.room.length > 0);
  return growthChart({
    record: view.record,
    measure,
    today,
    posterior,
    // A family's chart carries one limit: the device that gives first.
    forecasts: family
      ? shown.toSorted((a, b) => (a.p10 ?? '9').localeCompare(b.p10 ?? '9')).slice(0, 1)
      : shown,
    actions: wantedOf(view.inUse.flatMap((v) => v.decision ?? [])),
    centileAt: family && unsuited ? null : referenceCentiles(loadReferences()),
    caution:
      unsuited && !family
        ? 'Children with this condition grow differently: the grey centiles describe other children.'
        : undefined,
    ...options,
  });
}

export function timelineSpec(view: ChildView, today: IsoDate, widthPx?: number): Spec {
  return deviceTimeline({
    record: view.record,
    forecasts: view.inUse.map((v) => v.forecast),
    decisions: view.inUse.flatMap((v) => v.decision ?? []),
    today,
    widthPx,
  });
}

export interface ScoredReading {
  readonly id: string;
  readonly date: string;
  readonly measure: MeasureId;
  readonly side: Side;
  readonly value: number;
  readonly zScore: number | null;
  /** What the child's other readings lead one to expect, when this one is in doubt. */
  readonly expected: number | null;
}

/** A measure's readings with their z-scores and, where in doubt, what was expected. */
export function scoredReadings(
  view: ChildView,
  measure: MeasureId,
  posterior: ChildPosterior | null,
): ScoredReading[] {
  const doubts = new Map(
    (posterior?.suspicions ?? [])
      .filter((s) => s.probability > GROSS)
      .map((s) => [s.measurementId, s.expected]),
  );
  return view.record.measurements
    .filter((m) => m.measure === measure)
    .map((m) => ({
      id: m.id,
      date: m.date,
      measure: m.measure,
      side: m.side,
      value: m.value,
      zScore: posterior?.zScore({ measure: m.measure, side: m.side }, dayNumber(m.date), m.value) ?? null,
      expected: doubts.get(m.id) ?? null,
    }));
}
