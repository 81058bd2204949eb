import { GROWN_YEARS, referenceAgeYears } from '../../records/age.js';
import type { DayNumber } from '../../records/dates.js';
import { type Series, seriesKey } from '../../records/measure.js';
import { floatsOf } from '../../statistics/floats-of.js';
import { normalCdf } from '../../statistics/normal-cdf.js';
import { wideProduct } from '../../statistics/tensor/wide-products.js';
import type { Component } from '../child/components.js';
import type { Conditioned } from '../child/conditioned.js';
import type { ChildPosterior } from '../contract.js';
import { growthAgeYears, logAge } from '../population/growth-age.js';
import { fromScale, isLogMeasure } from '../population/growth-scale.js';
import { sideCode } from '../population/points.js';
import type { Row } from './conditional-gaussian.js';
import { mixedSize, type Sizes } from './mixed-size.js';
import { mixtureQuantile } from './mixture-quantile.js';
import { pathKnots, readBetween } from './path-knots.js';
import { pathPlan } from './path-plan.js';
import { pathsOf } from './sample-paths.js';
import { seriesGaussian } from './series-gaussian.js';
import { sizesOnDay } from './sizes-on-day.js';

/** Readings doubted less than this are not worth a person's attention. */
const WORTH_SHOWING = 0.05;

/** In one component: size now and what is still to be grown, with its SD; model scale. */
interface GrowthToCome {
  readonly now: number;
  readonly toCome: number;
  readonly sd: number;
}

/** The contract's view of a conditioned child. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the answers to every question about one child, over the same components
export function childPosterior(c: Conditioned): ChildPosterior {
  const { input, model, components } = c;
  const place = (series: Series, days: readonly DayNumber[]) => {
    const measure = model.index.get(series.measure);
    if (measure === undefined) throw new Error(`the growth model has no ${series.measure}`);
    const side = sideCode(series.side);
    return days.map((day) => ({
      measure,
      side,
      x: logAge(growthAgeYears(input.birthDate, day, input.gestationWeeks)),
    }));
  };
  // Asked for several lengths of the same series and day.
  const asked = new Map<string, readonly GrowthToCome[]>();
  const growthToCome = (series: Series, day: DayNumber): readonly GrowthToCome[] => {
    const key = `${seriesKey(series)}/${day}`;
    const known = asked.get(key);
    if (known) return known;
    const end = Math.max(GROWN_YEARS, growthAgeYears(input.birthDate, day, input.gestationWeeks));
    const [now] = place(series, [day]);
    const rows = [now, { ...now, x: logAge(end) }];
    const view = seriesGaussian(c.parts, rows, rows, c.prior);
    const found = components.map((w) => {
      const [first, last] = view.mean(w);
      const covariance = view.covariance(w);
      const variance = covariance[0] + covariance[3] - 2 * covariance[2];
      return { now: first, toCome: last - first, sd: Math.sqrt(Math.max(variance, 1e-12)) };
    });
    asked.set(key, found);
    return found;
  };
  const average = (value: (w: Component) => number) =>
    components.reduce((s, w) => s + w.weight * value(w), 0);
  const meanAndSd = (value: (w: Component) => number) => {
    const mean = average(value);
    return {
      mean,
      sd: Math.sqrt(
        Math.max(
          0,
          average((w) => (value(w) - mean) ** 2),
        ),
      ),
    };
  };
  // A submodel without tempo says nothing about it: only submodels that have it are asked.
  const late = (w: Component) => w.submodel.tempoYears(w.at.tempo);
  return {
    sex: input.sex,
    modelName: model.name,
    modelVersion: model.version,
    tempoYears: meanAndSd(late),
    peakVelocityAgeYears: meanAndSd((w) => w.submodel.peakVelocityAgeYears + late(w)),
    chanceOfFurtherGrowth(series, day, mm) {
      const id = series.measure;
      return components.reduce((sum, w, k) => {
        const { now, toCome, sd } = growthToCome(series, day)[k];
        const gap = isLogMeasure(id) ? Math.log1p(mm / fromScale(id, now)) : mm;
        return sum + w.weight * (1 - normalCdf((gap - toCome) / sd));
      }, 0);
    },
    knows: (measure) => model.index.has(measure),
    predict(series, days) {
      const id = series.measure;
      const rows = place(series, days);
      const views = predictions(c, rows, days);
      const mean = new Float64Array(days.length);
      const sd = new Float64Array(days.length);
      for (let j = 0; j < days.length; j++) ({ mean: mean[j], sd: sd[j] } = mixedSize(id, views, j));
      return {
        days,
        mean,
        sd,
        quantile: (p) =>
          floatsOf(days, (_, j) =>
            fromScale(
              id,
              mixtureQuantile(
                p,
                views.map((v) => v.weight),
                views.map((v) => v.mean[j]),
                views.map((v) => Math.sqrt(v.variance[j])),
              ),
            ),
          ),
      };
    },
    predictOn(series, day) {
      if (series.length === 0) return [];
      const views = sizesOnDay(
        c,
        series.flatMap((s) => place(s, [day])),
      );
      return series.map(({ measure }, j) => mixedSize(measure, views, j));
    },
    sample: (series, days, draws, seed) => {
      const placed = series.map((s) => ({ id: s.measure, rows: place(s, days) }));
      const plan = pathPlan(c, placed, days, draws, seed);
      return pathsOf(
        plan,
        placed,
        draws,
        plan.parts.map((p) => wideProduct(p.deviation)),
      );
    },
    zScore(series, day, value) {
      const age = referenceAgeYears(input.birthDate, day, input.gestationWeeks);
      if (input.sex !== 'unknown') return model.zScore(input.sex, series.measure, age, value);
      const male = model.zScore('male', series.measure, age, value);
      const female = model.zScore('female', series.measure, age, value);
      return male === null || female === null ? null : (male + female) / 2;
    },
    suspicions: c.seen.flatMap((r, i) => {
      if (c.doubts.probability[i] < WORTH_SHOWING) return [];
      const id = model.measures[r.measure];
      const expected = fromScale(id, c.doubts.expected[i]);
      const expectedSd = c.doubts.expectedSd[i] * (isLogMeasure(id) ? expected : 1);
      return r.ids.map((measurementId) => ({
        measurementId,
        probability: c.doubts.probability[i],
        expected,
        expectedSd,
      }));
    }),
  };
}

/** A band is drawn: its width may change at every visit. */
const SPACING = { days: 49, logAge: 0.08 };

/** Every component's mean and variance per day; variances are read between knots. */
function predictions(
  { components, parts, prior }: Conditioned,
  rows: readonly Row[],
  days: readonly DayNumber[],
): Sizes[] {
  const knots = pathKnots(
    days,
    rows.map((r) => r.x),
    SPACING,
  );
  const view = seriesGaussian(
    parts,
    rows,
    knots.at.map((j) => rows[j]),
    prior,
  );
  const nk = knots.at.length;
  return components.map((w) => {
    const mean = Float64Array.from(view.mean(w));
    const covariance = view.covariance(w);
    const own = floatsOf(knots.at, (_, k) => covariance[k * nk + k]);
    const inOrder = readBetween(knots, own, 1, new Float64Array(days.length));
    const variance = new Float64Array(days.length);
    knots.order.forEach((j, rank) => {
      variance[j] = Math.max(inOrder[rank], 1e-10);
    });
    return { weight: w.weight, mean, variance };
  });
}
