import { bSplineBasis } from './b-spline-basis.js';
import { choleskySolve } from './cholesky.js';
import { type Lms, lmsPowerZScore } from './lms.js';
import {
  addBlock,
  blockQuadratic,
  differencePenalty,
  factorOf,
  inverseOf,
  multiply,
  priorTrace,
  quadratic,
  traceOfProduct,
  zeros,
} from './penalty-matrices.js';

/** One value at one place on the axis; `weight` counts as that many records (1 when absent). */
export interface LmsObservation {
  readonly x: number;
  readonly y: number;
  readonly weight?: number;
}

export interface PenalisedLmsFit {
  readonly at: (x: number) => Lms;
  /** Effective degrees of freedom spent on each curve. */
  readonly effectiveDegrees: { readonly l: number; readonly m: number; readonly s: number };
}

export interface PenalisedLmsOptions {
  readonly from: number;
  readonly to: number;
  /** Keep M from ever falling. */
  readonly rising?: boolean;
  /** Places at which M's steps from one to the next may only get smaller. */
  readonly slowing?: readonly number[];
  /** A curve that M's relative growth may not exceed from a place on. */
  readonly behind?: { readonly curve: (x: number) => number; readonly from: number };
  /** A known curve M is thought to resemble up to scale: ln M less its logarithm is what is kept smooth. */
  readonly template?: (x: number) => number;
}

/** How fine each curve's knots are, and the order of the differences its penalty keeps small. */
const curves = [
  { name: 'l', segments: 10, order: 1 },
  { name: 'm', segments: 36, order: 2 },
  { name: 's', segments: 16, order: 2 },
] as const;
/**
 * L is taken as 1 give or take 10 (SD) before any record is seen: keeps it from running away where sizes vary
 * so little that records hardly tell it. A tighter prior did worse on records held out.
 */
const USUAL_POWER = 1;
const POWER_PRECISION = 1 / 10 ** 2;
const KEEPS_RISING = 1e6;
const KEEPS_SLOWING = 1e8;
const RISING_CHECKS = 150;
const MAX_ROUNDS = 200;
/** The plain update (1) creeps; a bolder power reaches the same fixed point in fewer rounds. */
const BOLDNESS = 1.7;
const LEAST_SMOOTHING = 1e-3;
const MOST_SMOOTHING = 1e9;

/**
 * Smooth L, M and S curves through records of a positive, possibly skewed size (penalised likelihood:
 * Cole & Green 1992, Stat Med 11:1305). L, ln M and ln S are P-splines (Eilers & Marx 1996); Fisher
 * scoring on all coefficients at once. How smooth each curve is comes from the records by maximising the
 * marginal likelihood (generalised Fellner-Schall updates: Wood & Fasiolo 2017, Biometrics 73:1071), so
 * that few records give stiff curves by themselves. `rising` and `slowing` keep M's shape by asymmetric
 * penalties.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: rounds of Fisher scoring, whose sums are used together
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one step of Fisher scoring, whose sums are used together
export function fitPenalisedLms(
  observations: readonly LmsObservation[],
  { from, to, rising = false, slowing = [], behind, template = () => 1 }: PenalisedLmsOptions,
): PenalisedLmsFit {
  const bases = curves.map((c) => bSplineBasis(from, to, c.segments));
  const sizes = curves.map((c) => c.segments + 3);
  const starts = [0, sizes[0], sizes[0] + sizes[1]];
  const total = sizes[0] + sizes[1] + sizes[2];
  const rowAt = (x: number, y: number, weight: number) => ({
    y,
    weight,
    template: Math.log(template(x)),
    parts: bases.map((basis, c) => nonZero(basis(x), starts[c])),
  });
  const rows = observations.map((o) => rowAt(o.x, o.y, o.weight ?? 1));
  const penalties = curves.map((c, k) => differencePenalty(sizes[k], c.order));
  const smoothing = [100, 1, 100];
  const steps = rising ? risingSteps(rowAt, from, to) : [];
  if (behind)
    for (const { x, template: grown, part } of risingSteps(rowAt, behind.from, to))
      steps.push({
        x,
        template: Math.log(behind.curve(x[1]) / behind.curve(x[0])) - grown,
        part: { at: part.at, value: part.value.map((v) => -v) },
      });
  const slows = slowing.map((x) => rowAt(x, 0, 0));
  let beta: Float64Array = new Float64Array(total);

  const curveAt = (b: Float64Array, row: (typeof rows)[number]): Lms => ({
    l: USUAL_POWER + dot(b, row.parts[0]),
    m: Math.exp(row.template + dot(b, row.parts[1])),
    s: Math.exp(dot(b, row.parts[2])),
  });
  /** -2 ln likelihood of the observations (without the constant n ln 2 pi). */
  const deviance = (b: Float64Array) => {
    let sum = 0;
    for (const row of rows) {
      const lms = curveAt(b, row);
      const z = lmsPowerZScore(lms, row.y);
      sum += row.weight * (z * z + 2 * Math.log(lms.s) - 2 * lms.l * Math.log(row.y / lms.m));
    }
    return Number.isFinite(sum) ? sum : Infinity;
  };
  const penaltyMatrix = () => {
    const out = zeros(total);
    for (const [c, penalty] of penalties.entries()) addBlock(out, penalty, starts[c], smoothing[c]);
    for (let i = 0; i < sizes[0]; i++) out[i][i] += POWER_PRECISION;
    return out;
  };
  /** Asymmetric penalties on the shape of M: their value, and their derivatives added to the system. */
  const misshapen = (b: Float64Array, system?: Float64Array[], pull?: Float64Array) => {
    let sum = 0;
    const punish = (excess: number, strength: number, part: Part) => {
      sum += strength * excess * excess;
      part.at.forEach((i, k) => {
        if (pull) pull[i] += strength * excess * part.value[k];
        if (system)
          part.at.forEach((j, n) => {
            system[i][j] += strength * part.value[k] * part.value[n];
          });
      });
    };
    for (const step of steps) {
      const rise = step.template + dot(b, step.part);
      if (rise < 0) punish(rise, KEEPS_RISING, step.part);
    }
    for (let k = 1; k + 1 < slows.length; k++) {
      const three = [slows[k - 1], slows[k], slows[k + 1]];
      const m = three.map((row) => Math.exp(row.template + dot(b, row.parts[1])));
      // Quickening, as a share of the size; its slope in the coefficients is each size times its own basis.
      const share = [m[0] / m[1], -2, m[2] / m[1]];
      const quickening = share[0] + share[1] + share[2];
      if (quickening <= 0) continue;
      punish(quickening, KEEPS_SLOWING, {
        at: three.flatMap((row) => row.parts[1].at),
        value: three.flatMap((row, i) => row.parts[1].value.map((v) => v * share[i])),
      });
    }
    return sum;
  };
  beta = startingCoefficients(rows, sizes, starts, addBlock(zeros(total), penalties[1], starts[1], 10));

  let information: Float64Array[] = zeros(total);
  let inverse: Float64Array[] = zeros(total);
  for (let round = 0; round < MAX_ROUNDS; round++) {
    const score = new Float64Array(total);
    information = zeros(total);
    for (const row of rows) addRow(row, curveAt(beta, row), score, information);
    const penalty = penaltyMatrix();
    const pull = multiply(penalty, beta);
    const system = information.map((r, i) => r.map((v, j) => v + penalty[i][j]));
    misshapen(beta, system, pull);
    const factor = factorOf(system);
    const step = choleskySolve(
      factor,
      score.map((v, i) => v - pull[i]),
    );
    const cost = (b: Float64Array) => deviance(b) + quadratic(penalty, b) + misshapen(b);
    const stood = cost(beta);
    let size = 1;
    let next = beta;
    for (; size > 1e-4; size /= 2) {
      next = beta.map((v, i) => v + size * step[i]);
      if (cost(next) <= stood + 1e-9) break;
    }
    beta = next;
    inverse = inverseOf(factor);
    let moved = 0;
    for (const [c, block] of penalties.entries()) {
      const trace = traceOfProduct(inverse, block, starts[c]);
      const rough = blockQuadratic(block, beta, starts[c]);
      const ridge = c === 0 ? POWER_PRECISION : 0;
      const before = priorTrace(block, smoothing[c], ridge, curves[c].order);
      const ratio = Math.max(before - trace, 0) / Math.max(rough, 1e-12);
      const wanted = smoothing[c] * ratio ** BOLDNESS;
      const updated = Math.min(MOST_SMOOTHING, Math.max(LEAST_SMOOTHING, wanted));
      moved = Math.max(moved, Math.abs(Math.log(updated / smoothing[c])));
      smoothing[c] = updated;
    }
    if (moved < 0.01 && Math.max(...step.map(Math.abs)) * size < 1e-4) break;
  }

  const degrees = curves.map((_, c) => {
    let sum = 0;
    for (let i = starts[c]; i < starts[c] + sizes[c]; i++)
      for (let j = 0; j < total; j++) sum += inverse[i][j] * information[j][i];
    return sum;
  });
  return {
    at: (x) => curveAt(beta, rowAt(x, 0, 0)),
    effectiveDegrees: { l: degrees[0], m: degrees[1], s: degrees[2] },
  };
}

interface Row {
  readonly y: number;
  readonly weight: number;
  readonly template: number;
  readonly parts: readonly Part[];
}
interface Part {
  readonly at: readonly number[];
  readonly value: readonly number[];
}

/** First derivatives and expected second derivatives of the log likelihood (Cole & Green 1992, appendix). */
function addRow(row: Row, lms: Lms, score: Float64Array, information: Float64Array[]): void {
  const { l, s } = lms;
  const z = lmsPowerZScore(lms, row.y);
  const log = Math.log(row.y / lms.m);
  const excess = z * z - 1;
  // (z - log/S)/L tends to log^2/(2S) as L tends to 0.
  const curvature = Math.abs(l) < 1e-6 ? (log * log) / (2 * s) : (z - log / s) / l;
  const first = [z * curvature - log * excess, z / s + l * excess, excess];
  const second = [
    [(7 * s * s) / 4, -0.5, l * s * s],
    [-0.5, (1 + 2 * l * l * s * s) / (s * s), 2 * l],
    [l * s * s, 2 * l, 2],
  ];
  for (let a = 0; a < 3; a++) {
    const pa = row.parts[a];
    for (let i = 0; i < pa.at.length; i++) {
      score[pa.at[i]] += row.weight * first[a] * pa.value[i];
      const into = information[pa.at[i]];
      for (let b = 0; b < 3; b++) {
        const pb = row.parts[b];
        const k = row.weight * second[a][b] * pa.value[i];
        for (let j = 0; j < pb.at.length; j++) into[pb.at[j]] += k * pb.value[j];
      }
    }
  }
}

/** Least squares on the logarithm with L = 0 and one S for all: close enough for scoring to converge. */
function startingCoefficients(
  rows: readonly Row[],
  sizes: number[],
  starts: number[],
  roughness: Float64Array[],
) {
  const right = new Float64Array(roughness.length);
  for (const row of rows) {
    const part = row.parts[1];
    part.at.forEach((i, k) => {
      right[i] += row.weight * part.value[k] * (Math.log(row.y) - row.template);
      part.at.forEach((j, n) => {
        roughness[i][j] += row.weight * part.value[k] * part.value[n];
      });
    });
  }
  const beta = choleskySolve(factorOf(roughness), right);
  let sum = 0;
  let count = 0;
  for (const row of rows) {
    sum += row.weight * (Math.log(row.y) - row.template - dot(beta, row.parts[1])) ** 2;
    count += row.weight;
  }
  beta.fill(-USUAL_POWER, 0, sizes[0]);
  beta.fill(Math.log(sum / count) / 2, starts[2]);
  return beta;
}

/** Places close together along the axis, and how ln M changes from each to the next. */
function risingSteps(rowAt: (x: number, y: number, weight: number) => Row, from: number, to: number) {
  const places = Array.from(
    { length: RISING_CHECKS + 1 },
    (_, i) => from + ((to - from) * i) / RISING_CHECKS,
  );
  const rows = places.map((x) => rowAt(x, 0, 0));
  return rows.slice(1).map((row, i) => ({
    x: [places[i], places[i + 1]] as const,
    template: row.template - rows[i].template,
    part: {
      at: [...row.parts[1].at, ...rows[i].parts[1].at],
      value: [...row.parts[1].value, ...rows[i].parts[1].value.map((v) => -v)],
    },
  }));
}

function nonZero(values: Float64Array, start: number): Part {
  const at: number[] = [];
  const value: number[] = [];
  values.forEach((v, i) => {
    if (v === 0) return;
    at.push(start + i);
    value.push(v);
  });
  return { at, value };
}
const dot = (b: Float64Array, part: Part) => part.at.reduce((sum, i, k) => sum + b[i] * part.value[k], 0);
