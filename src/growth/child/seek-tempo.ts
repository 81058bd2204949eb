import { groupBy } from '../../statistics/group-by.js';
import type { ChildPrior, GridPoint, Placed } from '../population/submodel.js';
import { type Candidate, type Evidence, logLikelihood } from './components.js';
import { condense } from './condense.js';
import type { Reading } from './readings.js';

/** Gauss-Hermite rules for the standard normal, Abramowitz & Stegun (1964) table 25.10: node, weight. */
const TEMPO_RULE = mirrored([
  [0, 0.4571428571428571],
  [1.1544053947399682, 0.2401231786050127],
  [2.366759410734541, 0.0307571239675865],
  [3.750439717725742, 0.000548268855972218],
]);
const INTENSITY_RULE = mirrored([
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
]);
/** Points that stand for less than this share of the child are not worked out. */
const LEAST_SHARE = 2e-4;
/** Where the search begins, prior SD: tempo at a mean intensity, then intensity at the best tempo. */
const SCAN_TEMPO = [-2, -1, 0, 1, 2];
const SCAN_INTENSITY = [-1, 1];
const MOST_STEPS = 4;
const LONGEST_STEP = 1.5;
/** The step is small once it is so short against the posterior's own SD. */
const SHORT = 0.25;
const FARTHEST = 3.6;
/** A posterior is never taken to be wider than 1 / sqrt(this), prior SD. */
const LEAST_PRECISION = 0.6;

interface Normal {
  readonly tempo: number;
  readonly intensity: number;
  /** Lower triangular factor of the covariance: tempo's SD, intensity's slope on it, what is left. */
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** Ways of growing this much less likely than another of their pool (log) are not worked out: 3 in ten thousand. */
const HOPELESS = 8;
/**
 * Another clock that is so much less likely at the usual one's mode is no nearer at its own: of 2,643 clocks of invented
 * children none that was 8 below there came to be worked out.
 */
const HOPELESS_AT_ONCE = 10;

/**
 * Quadrature points where this child's tempo and intensity are: the mode of prior x likelihood is looked for, and a
 * Gauss-Hermite rule laid over its curvature. A point's `logPrior` holds its share of the area, so that
 * weights stay comparable between submodels. Liu & Pierce (1994), A note on Gauss-Hermite quadrature, Biometrika 81.
 * Candidates that the mode already shows to be out of the question are left out; a later look may bring them back.
 */
export function seekTempo(
  candidates: readonly Candidate[],
  seen: readonly Reading[],
  variance: Float64Array,
  prior: ChildPrior,
  evidence: Evidence,
): Candidate[] {
  const likeliest = new Map<string, { log: number; mode: Normal }>();
  const found = candidates.flatMap((candidate) => {
    const { pool } = candidate.submodel;
    const density = densityOf(candidate, seen, variance, prior, evidence);
    // The same child on another clock: the search begins where the usual one ended.
    const usual = likeliest.get(`${pool}/${candidate.sex}`);
    const start = usual
      ? { ...usual.mode, best: density(usual.mode.tempo, usual.mode.intensity) }
      : scan(density);
    if (usual && start.best + Math.log(usual.mode.a * usual.mode.c) < usual.log - HOPELESS_AT_ONCE) return [];
    const { best, ...mode } = findMode(density, start);
    const log = best + Math.log(mode.a * mode.c);
    for (const key of [pool, `${pool}/${candidate.sex}`])
      if (log > (likeliest.get(key)?.log ?? Number.NEGATIVE_INFINITY)) likeliest.set(key, { log, mode });
    return [{ candidate, density, mode, log }];
  });
  const laid = found
    .filter(({ candidate, log }) => log >= likeliest.get(candidate.submodel.pool)!.log - HOPELESS)
    .map(({ candidate, density, mode }) => ({ candidate, ...matchMoments(mode, density) }));
  return [...groupBy(laid, (l) => l.candidate.submodel.pool).values()].flatMap(worthAsking);
}

interface Laid {
  readonly candidate: Candidate;
  readonly points: readonly GridPoint[];
  /** Log of what each point stands for of the child. */
  readonly logs: readonly number[];
}

/** Points that stand for less than this share of their pool all together, by the condensed readings, are left out. */
const LEFT_OUT = 5e-3;

function worthAsking(pool: readonly Laid[]): Candidate[] {
  const logs = pool.flatMap((l) => l.logs).sort((a, b) => a - b);
  const weights = logs.map((l) => Math.exp(l - logs[logs.length - 1]));
  let left = LEFT_OUT * weights.reduce((s, w) => s + w, 0);
  const least = logs.find((_, k) => (left -= weights[k]) < 0) ?? Number.NEGATIVE_INFINITY;
  return pool.map(({ candidate, points, logs: own }) => ({
    ...candidate,
    grid: points.filter((_, k) => !(own[k] < least)),
  }));
}

function rule({ tempo: centre, intensity: middle, a, b, c }: Normal): GridPoint[] {
  const area = Math.log(a * c);
  return TEMPO_RULE.flatMap(([u, p]) =>
    INTENSITY_RULE.flatMap(([v, q]): GridPoint[] => {
      if (p * q < LEAST_SHARE) return [];
      const tempo = centre + a * u;
      const intensity = middle + b * u + c * v;
      const weight = Math.log(p * q) + (u * u + v * v) / 2 + area;
      return [{ tempo, intensity, logPrior: weight - (tempo * tempo + intensity * intensity) / 2 }];
    }),
  );
}

/**
 * A posterior that leans or is narrower than its curvature says is met by its mean and SD instead of its mode: points
 * are laid, weighed, and laid anew where their weights show it to be, until they agree.
 */
function matchMoments(
  first: Normal,
  density: (tempo: number, intensity: number) => number,
): Omit<Laid, 'candidate'> {
  let normal = first;
  for (let round = 1; ; round++) {
    const points = rule(normal);
    const logs = points.map(
      (p) => p.logPrior + (p.tempo ** 2 + p.intensity ** 2) / 2 + density(p.tempo, p.intensity),
    );
    const top = Math.max(...logs);
    const weights = logs.map((l) => Math.exp(l - top));
    const total = weights.reduce((s, w) => s + w, 0);
    const mean = (of: (p: GridPoint) => number) =>
      points.reduce((s, p, i) => s + (weights[i] / total) * of(p), 0);
    const [t, i] = [mean((p) => p.tempo), mean((p) => p.intensity)];
    const own = mean((p) => (p.tempo - t) ** 2);
    const both = mean((p) => (p.tempo - t) * (p.intensity - i));
    const other = mean((p) => (p.intensity - i) ** 2);
    const { a, c } = normal;
    const rest = Math.sqrt(Math.max(0, other - both ** 2 / Math.max(own, 1e-9)));
    const near = Math.abs(t - normal.tempo) < 0.3 * a && agree(Math.sqrt(own), a) && agree(rest, c);
    if (near || round === MOST_ROUNDS || !Number.isFinite(own + other)) return { points, logs };
    // Few points give a width only roughly: it changes by half or double at most in one round.
    const within = (sd: number, was: number) => Math.min(2 * was, Math.max(was / 2, sd));
    const wide = within(Math.sqrt(own), a);
    normal = { tempo: t, intensity: i, a: wide, b: (both / Math.max(own, 1e-9)) * wide, c: within(rest, c) };
  }
}
const MOST_ROUNDS = 5;
const agree = (sd: number, was: number) => sd > 0.85 * was && sd < 1.18 * was;

/** Log of prior x likelihood x marker evidence over tempo and intensity, from the condensed readings. */
function densityOf(
  candidate: Candidate,
  seen: readonly Reading[],
  variance: Float64Array,
  prior: ChildPrior,
  evidence: Evidence,
) {
  const { submodel } = candidate;
  const data = condense(candidate, seen, variance, prior);
  const { n } = data.at;
  const fixed = submodel.fixedCovariance(data.at, data.at, prior);
  const factor = new Float64Array(n * n);
  const alpha = new Float64Array(n);
  let placed: Placed | undefined;
  return (tempo: number, intensity: number): number => {
    const at = { tempo, intensity, logPrior: -(tempo * tempo + intensity * intensity) / 2 };
    placed = submodel.place(data.at, prior, at, placed);
    const log = logLikelihood(submodel, placed, data, fixed, prior, factor, alpha);
    return log === null ? Number.NEGATIVE_INFINITY : log + at.logPrior + evidence(submodel, at);
  };
}

interface Start {
  readonly tempo: number;
  readonly intensity: number;
  /** The density there. */
  readonly best: number;
}

/** The best of a few points. */
function scan(density: (tempo: number, intensity: number) => number): Start {
  let at = { tempo: 0, intensity: 0, best: Number.NEGATIVE_INFINITY };
  const look = (tempo: number, intensity: number) => {
    const best = density(tempo, intensity);
    if (best > at.best) at = { tempo, intensity, best };
  };
  for (const tempo of SCAN_TEMPO) look(tempo, 0);
  for (const intensity of SCAN_INTENSITY) look(at.tempo, intensity);
  return at;
}

/** Newton's steps by differences. */
function findMode(
  density: (tempo: number, intensity: number) => number,
  start: Start,
): Normal & { best: number } {
  let at = { tempo: start.tempo, intensity: start.intensity };
  let { best } = start;
  let width = 0.4;
  for (let step = 1; ; step++) {
    const { tempo: t, intensity: i } = at;
    const [t0, t1] = [density(t - width, i), density(t + width, i)];
    const [i0, i1] = [density(t, i - width), density(t, i + width)];
    const both = density(t + width, i + width);
    const slopeT = (t1 - t0) / (2 * width);
    const slopeI = (i1 - i0) / (2 * width);
    let tt = (2 * best - t0 - t1) / width ** 2;
    let ii = (2 * best - i0 - i1) / width ** 2;
    let ti = -(both - t1 - i1 + best) / width ** 2;
    if (!Number.isFinite(tt + ii + ti + slopeT + slopeI)) [tt, ii, ti] = [1, 1, 0];
    const { a, b, c } = spread(tt, ti, ii);
    let dt = a * a * slopeT + a * b * slopeI;
    let di = a * b * slopeT + (b * b + c * c) * slopeI;
    if (!Number.isFinite(dt + di)) [dt, di] = [0, 0];
    const length = Math.hypot(dt, di);
    const shorten = Math.min(1, LONGEST_STEP / (length || 1));
    const clamp = (v: number) => Math.min(FARTHEST, Math.max(-FARTHEST, v));
    const next = { tempo: clamp(t + dt * shorten), intensity: clamp(i + di * shorten) };
    const value = density(next.tempo, next.intensity);
    const better = value > best;
    if (better) {
      at = next;
      best = value;
    }
    const ownLength = Math.hypot(dt / a, (di - (b / a) * dt) / c);
    if (step === MOST_STEPS || ownLength < SHORT) return { ...at, a, b, c, best };
    width = Math.min(0.5, Math.max(0.05, better ? 0.7 * Math.min(a, Math.hypot(b, c)) : width / 2));
  }
}

/** Factor of the inverse of a symmetric 2 x 2 precision, its eigenvalues kept from falling below LEAST_PRECISION. */
function spread(tt: number, ti: number, ii: number): { a: number; b: number; c: number } {
  const middle = (tt + ii) / 2;
  const half = Math.hypot((tt - ii) / 2, ti);
  const [low, high] = [middle - half, middle + half].map((e) => 1 / Math.max(LEAST_PRECISION, e));
  const angle = half === 0 ? 0 : 0.5 * Math.atan2(2 * ti, tt - ii);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  // The axis of the larger precision lies at `angle`.
  const vt = high * cos * cos + low * sin * sin;
  const vi = high * sin * sin + low * cos * cos;
  const cov = (high - low) * cos * sin;
  const a = Math.sqrt(vt);
  return { a, b: cov / a, c: Math.sqrt(vi - (cov / a) ** 2) };
}

function mirrored(half: readonly (readonly [number, number])[]): [number, number][] {
  return half.flatMap(([node, weight]): [number, number][] =>
    node === 0
      ? [[0, weight]]
      : [
          [-node, weight],
          [node, weight],
        ],
  );
}
