import { normalCdf } from '../statistics/normal-cdf.js';
import { normalQuantile } from '../statistics/normal-quantile.js';

/** One duration: known to the day, or only known to be longer than `days` (still running). */
export interface Duration {
  readonly days: number;
  readonly running: boolean;
  /** A covariate centred by the caller (log of the work in progress when it began); 0 for none. */
  readonly load: number;
  /** How many such durations there were; 1 when left out. */
  readonly count?: number;
}

/** What is believed of log(days) before any duration was seen. */
export interface DurationPrior {
  readonly medianDays: number;
  readonly logSd: number;
  /** How many finished durations the prior weighs as much as. */
  readonly weight: number;
}

/** log(days) ~ Normal(location + slope * load, scale): posterior means, ready to predict with. */
export interface DurationModel {
  readonly location: number;
  readonly slope: number;
  readonly scale: number;
  /** Sum of weights behind the location: prior weight + number of finished durations. */
  readonly weight: number;
}

/** Slope prior: worth this many units of squared load; 0 slope unless the history says otherwise. */
const SLOPE_WEIGHT = 4;
const ITERATIONS = 25;
const SAMPLES = 60;

/**
 * Log-normal durations with running ones as right-censored, shrunk to a prior.
 * Normal with conjugate pseudo-observations for location, slope and variance; censored values by expectation-
 * maximisation with the truncated normal's first two moments (Aitkin 1981, Technometrics 23:161 — from memory).
 * Leaving running jobs out would make every estimate too short: the slow ones are those still running.
 */
export function fitLogNormalDurations(durations: readonly Duration[], prior: DurationPrior): DurationModel {
  const known = durations.filter((d) => d.days > 0);
  const mu0 = Math.log(prior.medianDays);
  let model = { location: mu0, slope: 0, scale: prior.logSd };
  const finished = known.reduce((n, d) => n + (d.running ? 0 : (d.count ?? 1)), 0);
  for (let k = 0; k < ITERATIONS && known.length > 0; k++) model = step(known, prior, mu0, model);
  return { ...model, weight: prior.weight + finished };
}

function step(
  durations: readonly Duration[],
  prior: DurationPrior,
  mu0: number,
  at: { location: number; slope: number; scale: number },
) {
  // Expected log duration and its square given what is known of each.
  let n = prior.weight;
  let sy = prior.weight * mu0;
  let sx = 0;
  let sxx = SLOPE_WEIGHT;
  let sxy = 0;
  const moments = durations.map((d) => {
    const expected = at.location + at.slope * d.load;
    return d.running
      ? truncatedMoments(expected, at.scale, Math.log(d.days))
      : { mean: Math.log(d.days), variance: 0 };
  });
  durations.forEach((d, i) => {
    const count = d.count ?? 1;
    n += count;
    sy += count * moments[i].mean;
    sx += count * d.load;
    sxx += count * d.load * d.load;
    sxy += count * d.load * moments[i].mean;
  });
  const determinant = n * sxx - sx * sx;
  const location = (sxx * sy - sx * sxy) / determinant;
  const slope = (n * sxy - sx * sy) / determinant;
  let squares = prior.weight * (prior.logSd ** 2 + (location - mu0) ** 2);
  durations.forEach((d, i) => {
    squares += (d.count ?? 1) * (moments[i].variance + (moments[i].mean - location - slope * d.load) ** 2);
  });
  return { location, slope, scale: Math.sqrt(squares / n) };
}

/** Mean and variance of Normal(mean, sd) known to exceed `above`. */
function truncatedMoments(mean: number, sd: number, above: number) {
  const a = (above - mean) / sd;
  // Past the reach of a double the hazard is a + 1/a to within 1/a^3 (asymptotic series of Mills' ratio).
  const hazard = a > 35 ? a + 1 / a : Math.exp((-a * a) / 2) / Math.sqrt(2 * Math.PI) / normalCdf(-a);
  return { mean: mean + sd * hazard, variance: sd * sd * Math.max(0.02, 1 + a * hazard - hazard * hazard) };
}

/**
 * Equally likely whole days (at least 1), ascending: quantiles at (i + 1/2)/60 of the predictive distribution,
 * which is wider than the fitted one by the doubt that remains about its location.
 * `longerThan`: only durations above it (a job that has run this long already).
 */
export function durationSamples(model: DurationModel, load: number, longerThan = 0): number[] {
  const location = model.location + model.slope * load;
  const scale = model.scale * Math.sqrt(1 + 1 / model.weight);
  // By the upper tail, where the share of jobs longer than a very long one keeps its digits.
  const above = longerThan > 0 ? normalCdf((location - Math.log(longerThan)) / scale) : 1;
  return Array.from({ length: SAMPLES }, (_, i) => {
    const longer = Math.max(Number.MIN_VALUE, above * (1 - (i + 0.5) / SAMPLES));
    const days = Math.exp(location - scale * normalQuantile(longer));
    return Math.max(1, Math.round(days), Math.ceil(longerThan));
  });
}
