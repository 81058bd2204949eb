import type { GridPoint } from '../population/submodel.js';

/** A normal over tempo and intensity, prior SD. */
export interface Normal {
  readonly tempo: number;
  readonly intensity: number;
  /** Lower triangular factor of the covariance: tempo's SD, intensity's slope on it, what is left. */
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** Gauss-Hermite rules for the standard normal, Abramowitz & Stegun (1964) table 25.10: node, weight. */
const TEMPO_RULE = [
  [-3.750439717725742, 0.000548268855972218],
  [-2.366759410734541, 0.0307571239675865],
  [-1.1544053947399682, 0.2401231786050127],
  [0, 0.4571428571428571],
  [1.1544053947399682, 0.2401231786050127],
  [2.366759410734541, 0.0307571239675865],
  [3.750439717725742, 0.000548268855972218],
] as const;
const INTENSITY_RULE = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;
/** Points that stand for less than this share of the child are not worked out. */
const LEAST_SHARE = 2e-4;
const RULE = TEMPO_RULE.flatMap(([u, p]) =>
  INTENSITY_RULE.flatMap(([v, q]) =>
    p * q < LEAST_SHARE ? [] : [{ u, v, log: Math.log(p * q) + (u * u + v * v) / 2 }],
  ),
);

/**
 * Points for a posterior like this normal. A point's `logPrior` holds its share of the area, so that weights
 * stay comparable between submodels. Liu & Pierce (1994), A note on Gauss-Hermite quadrature, Biometrika 81.
 */
export function tempoRule({ tempo: centre, intensity: middle, a, b, c }: Normal): GridPoint[] {
  const area = Math.log(a * c);
  return RULE.map(({ u, v, log }) => {
    const tempo = centre + a * u;
    const intensity = middle + b * u + c * v;
    return { tempo, intensity, logPrior: log + area - (tempo * tempo + intensity * intensity) / 2 };
  });
}

/** Weights of the points given the log of each, adding up to one. */
export function shares(logs: readonly number[]): Float64Array {
  const top = logs.reduce((most, l) => Math.max(most, l), Number.NEGATIVE_INFINITY);
  const out = Float64Array.from(logs, (l) => Math.exp(l - top));
  const total = out.reduce((sum, w) => sum + w, 0);
  return out.map((w) => w / total);
}

/** Mean and spread of the weighed points as a normal to lay the rule over next; null: they agree with the one before. */
export function nextNormal(
  before: Normal,
  points: readonly GridPoint[],
  weight: Float64Array,
): Normal | null {
  let [t, i, tt, ti, ii] = [0, 0, 0, 0, 0];
  points.forEach(({ tempo, intensity }, k) => {
    t += weight[k] * tempo;
    i += weight[k] * intensity;
  });
  points.forEach(({ tempo, intensity }, k) => {
    tt += weight[k] * (tempo - t) ** 2;
    ti += weight[k] * (tempo - t) * (intensity - i);
    ii += weight[k] * (intensity - i) ** 2;
  });
  if (!Number.isFinite(tt + ii)) return null;
  const own = Math.max(tt, 1e-9);
  const rest = Math.sqrt(Math.max(0, ii - ti ** 2 / own));
  const { a, c } = before;
  const near = Math.abs(t - before.tempo) < 0.3 * a;
  if (near && agree(Math.sqrt(tt), a) && agree(rest, c)) return null;
  const wide = within(Math.sqrt(tt), a);
  return { tempo: t, intensity: i, a: wide, b: (ti / own) * wide, c: within(rest, c) };
}
const agree = (sd: number, was: number) => sd > 0.85 * was && sd < 1.18 * was;
/** Few points give a width only roughly: it changes by half or double at most in one round. */
const within = (sd: number, was: number) => Math.min(2 * was, Math.max(was / 2, sd));
