import type { ChildPosterior } from '../growth/contract.js';
import { type DayNumber, dayNumber } from '../records/dates.js';
import { type MeasureId, type Series, seriesKey, technicalErrorAt } from '../records/measure.js';
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

/** The model has no curve for these; they keep their proportion to the head's circumference. */
const PROPORTIONAL: Partial<Record<MeasureId, MeasureId>> = {
  head_breadth: 'head_circumference',
  head_length: 'head_circumference',
};
/** The series whose growth decides a series': its own, or the one it keeps its proportion to. */
export const followedSeries = (s: Series): Series => ({
  ...s,
  measure: PROPORTIONAL[s.measure] ?? s.measure,
});

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
    const base = PROPORTIONAL[measure];
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
    const base = known.has(s.measure) ? s.measure : PROPORTIONAL[s.measure];
    if (base && known.has(base)) wanted.set(seriesKey({ ...s, measure: base }), { ...s, measure: base });
  }
  const list = [...wanted.values()];
  const values = list.length > 0 ? posterior.sample(list, days, draws, seed) : [];
  const paths = new Map(list.map((s, i) => [seriesKey(s), values[i]]));
  for (const s of series) {
    const base = PROPORTIONAL[s.measure];
    const path = base && paths.get(seriesKey({ ...s, measure: base }));
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
  base: MeasureId,
  path: Float64Array,
  width: number,
  draws: number,
  seed: number,
  measurements: readonly Measurement[],
): Float64Array | null {
  const own = measurements.filter((m) => m.measure === series.measure && m.side === series.side);
  if (own.length === 0) return null;
  const expected = posterior.predict(
    { ...series, measure: base },
    own.map((m) => dayNumber(m.date)),
  ).mean;
  const ratio = own.reduce((sum, m, i) => sum + m.value / expected[i], 0) / own.length;
  const error = technicalErrorAt(series.measure, 0) / own[0].value / Math.sqrt(own.length);
  const sd = Math.hypot(error, PROPORTION_SD);
  const chance = randomStream(childlessSeed(seed, series.measure.length));
  const result = new Float64Array(path.length);
  for (let i = 0; i < draws; i++) {
    const factor = ratio * (1 + sd * chance.normal());
    for (let j = 0; j < width; j++) result[i * width + j] = factor * path[i * width + j];
  }
  return result;
}

const childlessSeed = (seed: number, salt: number) => Math.imul(seed ^ (salt * 0x9e3779b9), 0x85ebca6b) | 0;
