import type { ChildPosterior } from '../growth/contract.js';
import { type DayNumber, dayNumber } from '../records/dates.js';
import { type MeasureId, measures, type Series, seriesKey, technicalErrorAt } from '../records/measure.js';
import type { Measurement } from '../records/records.js';
import { randomStream } from '../statistics/random-stream.js';

/** Possible courses of one child's sizes: draw i is the same simulated child in every series. */
export interface Futures {
  readonly draws: number;
  /** Ascending; sizes in between are linear. */
  readonly days: readonly DayNumber[];
  /** By seriesKey: draws x days.length, row-major by draw, mm. */
  readonly paths: ReadonlyMap<string, Float64Array>;
}

interface Proportion {
  readonly of: MeasureId;
  /** Usual share of it at REFERENCE_MM; null where nothing stands in for it. */
  readonly share: number | null;
  /** Grows as this power of it: a boy's hand of 130 mm at 6 and 150 at 10 grows slower than his stature. */
  readonly power: number;
}
const REFERENCE_MM = 1200;

/**
 * The model has no curve for these; they keep their proportion to a measure that has one. Shares of stature: Drillis and
 * Contini 1966, Body segment parameters (hand 0.108, forearm 0.146), breadth, girth and the power common practice, no source; all
 * from memory, and replaced by the child's own readings.
 */
const PROPORTIONAL: Partial<Record<MeasureId, Proportion>> = {
  head_breadth: { of: 'head_circumference', share: null, power: 1 },
  head_length: { of: 'head_circumference', share: null, power: 1 },
  hand_length: { of: 'stature', share: 0.108, power: 0.8 },
  hand_breadth: { of: 'stature', share: 0.048, power: 0.8 },
  forearm_length: { of: 'stature', share: 0.146, power: 0.8 },
  forearm_girth: { of: 'stature', share: 0.135, power: 0.8 },
};
const baseOf = ({ measure, side }: Series): Series | null => {
  const base = PROPORTIONAL[measure];
  return base ? { measure: base.of, side: measures[base.of].sided ? side : 'none' } : null;
};
/** The series whose growth decides a series': its own, or the one it keeps its proportion to. */
export const followedSeries = (s: Series): Series => baseOf(s) ?? s;

/**
 * Where nothing that has a curve was measured of a child, a reading that keeps a usual share of such a measure stands in
 * for it, so that its pace is the child's own; else the readings as they are.
 */
export function withStandIns(
  measurements: readonly Measurement[],
  follows: (measure: MeasureId) => boolean,
): readonly Measurement[] {
  if (measurements.some((m) => follows(m.measure))) return measurements;
  return measurements.map((m) => {
    const base = PROPORTIONAL[m.measure];
    if (!base?.share) return m;
    const value = REFERENCE_MM * (m.value / (base.share * REFERENCE_MM)) ** (1 / base.power);
    const error = m.technicalError ?? technicalErrorAt(m.measure, 0);
    const technicalError = (value * error) / (base.power * m.value);
    return { ...m, measure: base.of, side: baseOf(m)!.side, value, technicalError };
  });
}

/** Relative SD of the proportion over a course, because a cranial orthosis is meant to change it (no source). */
const PROPORTION_SD = 0.01;

/** Which measures a future can be drawn for: the model's own, and those in proportion to one once they are measured. */
export function modelFollows(
  model: { readonly measures: readonly MeasureId[] },
  measurements: readonly Measurement[],
): (measure: MeasureId) => boolean {
  const known = new Set(model.measures);
  const measured = new Set(measurements.map((m) => m.measure));
  return (measure) => {
    const base = PROPORTIONAL[measure]?.of;
    return known.has(measure) || (base !== undefined && known.has(base) && measured.has(measure));
  };
}

/** Joint draws of every series the model can follow; a series it cannot is left out. */
export function sampleFutures(
  posterior: ChildPosterior,
  model: { readonly measures: readonly MeasureId[] },
  series: readonly Series[],
  days: readonly DayNumber[],
  draws: number,
  seed: number,
  measurements: readonly Measurement[],
): Futures {
  const known = new Set(model.measures);
  const wanted = new Map<string, Series>();
  for (const s of series) {
    const base = known.has(s.measure) ? s : baseOf(s);
    if (base && known.has(base.measure)) wanted.set(seriesKey(base), base);
  }
  const list = [...wanted.values()];
  const values = list.length > 0 ? posterior.sample(list, days, draws, seed) : [];
  const paths = new Map(list.map((s, i) => [seriesKey(s), values[i]]));
  for (const s of series) {
    const base = baseOf(s);
    const path = base && paths.get(seriesKey(base));
    if (!path || known.has(s.measure)) continue;
    const scaled = scaledPath(posterior, s, base, path, days.length, draws, seed, measurements);
    if (scaled) paths.set(seriesKey(s), scaled);
  }
  return { draws, days, paths };
}

/** A path in proportion to another, the proportion taken from the child's own readings; null without any. */
function scaledPath(
  posterior: ChildPosterior,
  series: Series,
  base: Series,
  path: Float64Array,
  width: number,
  draws: number,
  seed: number,
  measurements: readonly Measurement[],
): Float64Array | null {
  const own = measurements.filter((m) => m.measure === series.measure && m.side === series.side);
  if (own.length === 0) return null;
  const expected = posterior.predict(
    base,
    own.map((m) => dayNumber(m.date)),
  ).mean;
  const power = PROPORTIONAL[series.measure]?.power ?? 1;
  const ratio = own.reduce((sum, m, i) => sum + m.value / expected[i] ** power, 0) / own.length;
  const error = technicalErrorAt(series.measure, 0) / own[0].value / Math.sqrt(own.length);
  const sd = Math.hypot(error, PROPORTION_SD);
  const stream = randomStream(childlessSeed(seed, series.measure.length));
  const result = new Float64Array(path.length);
  for (let i = 0; i < draws; i++) {
    const factor = ratio * (1 + sd * stream.normal());
    for (let j = 0; j < width; j++) result[i * width + j] = factor * path[i * width + j] ** power;
  }
  return result;
}

const childlessSeed = (seed: number, salt: number) => Math.imul(seed ^ (salt * 0x9e3779b9), 0x85ebca6b) | 0;
