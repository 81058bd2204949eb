import { readTable } from '../population/curve-table.js';
import type { ChildPrior } from './child-prior.js';
import type { GridPoint, Member } from './member.js';
import type { Reading } from './readings.js';
import { type Candidate, type World, worlds } from './worlds.js';

/** Chance that a reading is grossly wrong before anything is known; common practice, no source. */
const GROSS_ERROR_RATE = 0.003;
/** SD of a grossly wrong reading about the truth, population SD of the measure: inches for centimetres is about 10. */
const GROSS_ERROR_SD = 8;
/** A reading doubted less than this (log odds) keeps its full say. */
const LET_BE = Math.log(0.02 / 0.98);
const HALF_LOG_TWO_PI = 0.9189385332046727;
const MOST_DOUBTED = 12;

export interface Doubt {
  /** Error variance per reading after doubt: the doubted ones count for little. */
  readonly variance: Float64Array;
  /** Probability of a gross error, and what all the others made expect; model scale. */
  readonly probability: Float64Array;
  readonly expected: Float64Array;
  readonly expectedSd: Float64Array;
  /** The worlds with doubt taken into account. */
  readonly worlds: readonly World[];
}

/**
 * Weighs each reading against all the others: the worst-fitting one is doubted first, given a wide error in
 * proportion, and the rest looked at again, so that one slip does not cast doubt on its neighbours.
 */
export function doubt(
  candidates: readonly Candidate[],
  seen: readonly Reading[],
  prior: ChildPrior,
  evidence: (member: Member, at: GridPoint) => number,
): Doubt {
  const n = seen.length;
  const variance = Float64Array.from(seen, (r) => r.variance);
  const probability = new Float64Array(n);
  const expected = new Float64Array(n);
  const expectedSd = new Float64Array(n);
  let ws = worlds(candidates, seen, prior, variance, evidence);
  for (let round = 0; round < Math.min(n, MOST_DOUBTED); round++) {
    let worst = -1;
    let most = { logOdds: LET_BE, wide: 1 };
    for (let i = 0; i < n; i++) {
      if (probability[i] > 0) continue;
      const { mean, sd, logDensity } = without(ws, seen, i);
      expected[i] = mean;
      expectedSd[i] = sd;
      const wide = GROSS_ERROR_SD * readTable(ws[0].member.curves.sd[seen[i].measure], seen[i].x);
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
    ws = worlds(candidates, seen, prior, variance, evidence);
  }
  return { variance, probability, expected, expectedSd, worlds: ws };
}
/** What the other readings say of reading i: mixture mean, SD (own error included), log density at its value. */
function without(ws: readonly World[], seen: readonly Reading[], i: number) {
  const views = ws.map((w) => {
    const precision = inverseDiagonal(w, i);
    const mean = seen[i].value - w.alpha[i] / precision;
    const log = -0.5 * ((seen[i].value - mean) ** 2 * precision - Math.log(precision)) - HALF_LOG_TWO_PI;
    // Reading i's own say in the world's weight is taken out again.
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

/** Entry (i, i) of the inverse of R R'. */
function inverseDiagonal(w: World, i: number): number {
  const n = w.alpha.length;
  const column = new Float64Array(n);
  column[i] = 1 / w.factor[i * n + i];
  let sum = column[i] ** 2;
  for (let r = i + 1; r < n; r++) {
    let v = 0;
    for (let k = i; k < r; k++) v -= w.factor[r * n + k] * column[k];
    column[r] = v / w.factor[r * n + r];
    sum += column[r] ** 2;
  }
  return sum;
}
