import {
  denseBackward,
  denseForward,
  denseInverseDiagonal,
  denseInverseEntry,
  denseWiden,
} from '../../statistics/dense-cholesky.js';
import { readTable } from '../population/curve-table.js';
import type { Points } from '../population/points.js';
import { type Component, weigh } from './components.js';
import type { Reading } from './readings.js';

/** Chance that a reading is grossly wrong before anything is known; common practice, no source. */
const GROSS_ERROR_RATE = 0.003;
/** SD of a grossly wrong reading about the truth, population SD of the measure: inches for centimetres is about 10. */
const GROSS_ERROR_SD = 8;
/** A reading doubted less than this (log odds) keeps its full say. */
const LET_BE = Math.log(0.02 / 0.98);
const HALF_LOG_TWO_PI = 0.9189385332046727;
const MOST_DOUBTED = 12;
/** In the likeliest component of each kind a reading must stray so many SD before all components are asked about it. */
const WORTH_ASKING = 2;

export interface Doubt {
  /** Error variance per reading after doubt: the doubted ones count for little. */
  readonly variance: Float64Array;
  /** Probability of a gross error, and what all the others made expect; model scale. Nought where not doubted. */
  readonly probability: Float64Array;
  readonly expected: Float64Array;
  readonly expectedSd: Float64Array;
  /** All components, not weighed yet, with doubt taken into account. */
  readonly components: readonly Component[];
}

/**
 * Weighs each reading against all the others: the worst-fitting one is doubted first, given a wide error in
 * proportion, and the rest looked at again, so that one slip does not cast doubt on its neighbours. `all` are components
 * conditioned on the readings as they stand; where one is doubted they are brought up to date in place.
 */
export function doubt(all: readonly Component[], seen: readonly Reading[], at: Points): Doubt {
  const n = seen.length;
  const variance = Float64Array.from(seen, (r) => r.variance);
  const probability = new Float64Array(n);
  const expected = new Float64Array(n);
  const expectedSd = new Float64Array(n);
  let components = all;
  for (let round = 0; round < Math.min(n, MOST_DOUBTED); round++) {
    const weighed = weigh(components, at);
    let worst = -1;
    let most = { logOdds: LET_BE, wide: 1 };
    for (const i of straying(weighed, n)) {
      if (probability[i] > 0) continue;
      const { mean, sd, logDensity } = without(weighed, seen[i].value, i);
      expected[i] = mean;
      expectedSd[i] = sd;
      const wide = GROSS_ERROR_SD * readTable(weighed[0].submodel.curves.sd[seen[i].measure], seen[i].x);
      const wideSd = Math.hypot(wide, sd);
      const wideLog = -0.5 * ((seen[i].value - mean) / wideSd) ** 2 - Math.log(wideSd) - HALF_LOG_TWO_PI;
      const logOdds = Math.log(GROSS_ERROR_RATE / (1 - GROSS_ERROR_RATE)) + wideLog - logDensity;
      if (logOdds > most.logOdds) {
        worst = i;
        most = { logOdds, wide };
      }
    }
    if (worst < 0) break;
    const p = 1 / (1 + Math.exp(-most.logOdds));
    probability[worst] = p;
    const precise = (1 - p) / seen[worst].variance + p / most.wide ** 2;
    variance[worst] = 1 / precise;
    components = components.map((w) => widened(w, worst, 1 / precise - seen[worst].variance));
  }
  return { variance, probability, expected, expectedSd, components };
}

/** Readings that stray in the likeliest component of some submodel: only these can be slips. */
function straying(weighed: readonly Component[], n: number): number[] {
  const likeliest = new Map<string, Component>();
  for (const w of weighed) {
    const key = `${w.submodel.name}/${w.sex}`;
    if (w.weight > (likeliest.get(key)?.weight ?? 0)) likeliest.set(key, w);
  }
  const strays = new Uint8Array(n);
  for (const w of likeliest.values()) {
    const precision = denseInverseDiagonal(w.factor, n);
    for (let i = 0; i < n; i++)
      if (w.alpha[i] * w.alpha[i] > WORTH_ASKING * WORTH_ASKING * precision[i]) strays[i] = 1;
  }
  return Array.from(strays.keys()).filter((i) => strays[i] === 1);
}

/** The component with the error variance of reading i wider by `more`: factor, alpha and likelihood by rank one. */
function widened(w: Component, i: number, more: number): Component {
  const n = w.alpha.length;
  const unit = new Float64Array(n);
  unit[i] = 1;
  denseForward(w.factor, n, unit);
  denseBackward(w.factor, n, unit);
  const share = more / (1 + more * unit[i]);
  const alpha = Float64Array.from(w.alpha, (a, j) => a - share * w.alpha[i] * unit[j]);
  denseWiden(w.factor, n, i, more);
  const log = w.log + 0.5 * (share * w.alpha[i] ** 2 - Math.log1p(more * unit[i]));
  return { ...w, alpha, log };
}

/** What the other readings say of reading i: mixture mean, SD (own error included), log density at its value. */
function without(ws: readonly Component[], value: number, i: number) {
  const views = ws.map((w) => {
    const precision = denseInverseEntry(w.factor, w.alpha.length, i);
    const mean = value - w.alpha[i] / precision;
    const log = -0.5 * ((value - mean) ** 2 * precision - Math.log(precision)) - HALF_LOG_TWO_PI;
    // Reading i's own say in the component's weight is taken out again.
    return { mean, variance: 1 / precision, log, logWeight: Math.log(w.weight) - log };
  });
  const top = Math.max(...views.map((v) => v.logWeight));
  const topBoth = Math.max(...views.map((v) => v.logWeight + v.log));
  let sum = 0;
  let mean = 0;
  let second = 0;
  let both = 0;
  for (const v of views) {
    const weight = Math.exp(v.logWeight - top);
    sum += weight;
    mean += weight * v.mean;
    second += weight * (v.mean * v.mean + v.variance);
    both += Math.exp(v.logWeight + v.log - topBoth);
  }
  mean /= sum;
  const logDensity = topBoth + Math.log(both) - top - Math.log(sum);
  return { mean, sd: Math.sqrt(Math.max(second / sum - mean * mean, 1e-12)), logDensity };
}
