import {
  denseBackward,
  denseForward,
  denseInverseEntry,
  denseWiden,
} from '../../statistics/dense-cholesky.js';
import { floatsOf } from '../../statistics/floats-of.js';
import { readTable } from '../population/curve-table.js';
import { type Component, type conditionComponents, type Factors, weightedComponents } from './components.js';
import type { Parts } from './parts.js';
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
  /** Measure of which a side is doubted that was paired with the other: its pairs must be taken apart before it can be given a wider error. */
  readonly breaksPairsOf: number | null;
}

/**
 * Weighs each reading against all the others: the worst-fitting one is doubted first, given a wide error in
 * proportion, and the rest looked at again, so that one slip does not cast doubt on its neighbours. `all` are components
 * conditioned on the readings as they stand; where one is doubted they are brought up to date in place.
 */
export function doubt(
  { components: all, factors }: ReturnType<typeof conditionComponents>,
  seen: readonly Reading[],
  parts: Parts,
): Doubt {
  const n = seen.length;
  const { at } = parts.data[0];
  const variance = floatsOf(seen, (r) => r.variance);
  const probability = new Float64Array(n);
  const expected = new Float64Array(n);
  const expectedSd = new Float64Array(n);
  let components = all;
  for (let round = 0; round < Math.min(n, MOST_DOUBTED); round++) {
    const weighed = weightedComponents(components, at);
    let worst = -1;
    let most = { logOdds: LET_BE, wide: 1 };
    for (const i of straying(weighed, factors, parts)) {
      if (probability[i] > 0) continue;
      const { mean, sd, logDensity } = without(weighed, factors, seen[i].value, i, parts);
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
    if (parts.differenceIn[worst] > 0)
      return { variance, probability, expected, expectedSd, components, breaksPairsOf: seen[worst].measure };
    const precise = (1 - p) / seen[worst].variance + p / most.wide ** 2;
    variance[worst] = 1 / precise;
    components = components.map((w) =>
      widened(w, factors[w.index][0], parts.place[worst], 1 / precise - seen[worst].variance),
    );
  }
  return { variance, probability, expected, expectedSd, components, breaksPairsOf: null };
}

/** Readings that stray in the likeliest component of some submodel: only these can be slips. */
function straying(weighed: readonly Component[], factors: Factors, parts: Parts): number[] {
  const likeliest = new Map<string, Component>();
  for (const w of weighed) {
    const key = `${w.submodel.name}/${w.sex}`;
    if (w.weight > (likeliest.get(key)?.weight ?? 0)) likeliest.set(key, w);
  }
  const strays = new Uint8Array(parts.place.length);
  for (const w of likeliest.values())
    for (let i = 0; i < strays.length; i++) {
      const most = (pullOn(w, i, parts) / WORTH_ASKING) ** 2;
      if (ownPrecision(w, factors, i, parts, most) < most) strays[i] = 1;
    }
  return Array.from(strays.keys()).filter((i) => strays[i] === 1);
}

/** Entry i of V^-1 (y - mean), over the readings themselves: a side is its pair's mean and half the difference. */
function pullOn({ parts: own }: Component, i: number, { place, differenceIn, differenceAt, sign }: Parts) {
  const common = own[0].alpha[place[i]];
  const k = differenceIn[i];
  return k === 0 ? common : common / 2 + sign[i] * own[k].alpha[differenceAt[i]];
}

/** Entry (i, i) of V^-1 over the readings themselves, from those of the parts; of one over `enough` so much as shows that it is. */
function ownPrecision(
  { index, parts: own }: Component,
  factors: Factors,
  i: number,
  { place, differenceIn, differenceAt }: Parts,
  enough = Number.POSITIVE_INFINITY,
): number {
  const entry = (part: number, at: number, most: number) =>
    denseInverseEntry(factors[index][part], own[part].alpha.length, at, most);
  const k = differenceIn[i];
  if (k === 0) return entry(0, place[i], enough);
  return entry(0, place[i], 4 * enough) / 4 + entry(k, differenceAt[i], enough);
}

/** The component with the error variance at a place of the first part wider by `more`, by rank one. */
function widened(w: Component, factor: Float64Array, i: number, more: number): Component {
  const [{ placed, alpha: before }, ...rest] = w.parts;
  const n = before.length;
  const unit = new Float64Array(n);
  unit[i] = 1;
  denseForward(factor, n, unit);
  denseBackward(factor, n, unit);
  const share = more / (1 + more * unit[i]);
  const alpha = floatsOf(before, (a, j) => a - share * before[i] * unit[j]);
  denseWiden(factor, n, i, more);
  const log = w.log + 0.5 * (share * before[i] ** 2 - Math.log1p(more * unit[i]));
  return { ...w, parts: [{ placed, alpha }, ...rest], log };
}

/** What the other readings say of reading i: mixture mean, SD (own error included), log density at its value. */
function without(ws: readonly Component[], factors: Factors, value: number, i: number, parts: Parts) {
  const views = ws.map((w) => {
    const precision = ownPrecision(w, factors, i, parts);
    const mean = value - pullOn(w, i, parts) / precision;
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
