import type { GrowthModel } from '../../../growth/population/growth-model.js';
import type { Noise } from '../clinic-noise.js';
import { condition, pathCrossingDays } from '../growth-forecaster.js';
import { dayAtAge, seriesOf } from '../growth-input.js';
import type { RecallPolicy, VisitState } from './recall-policy.js';

/** Nearest and farthest next visit, days. Growth that has all but stopped is still reviewed once a year. */
const SOONEST_DAYS = 28;
const LATEST_DAYS = 364;
const DRAWS = 300;
const FEWEST_DRAWS = 50;
/** Days ahead at which the paths are drawn: finer where dates are near. */
const AHEAD = [
  0, 14, 28, 42, 56, 70, 84, 98, 112, 126, 140, 154, 168, 182, 203, 224, 245, 266, 294, 322, 350, 385, 420,
];

/** Equally likely days from today until growth uses up the allowance, Infinity beyond the horizon. */
export interface DeviceLives {
  /** Of the device worn now. */
  readonly current: readonly number[];
  /** Of one cast today. */
  readonly renewed: readonly number[];
}

/** Both devices' lives from the joint posterior, given what the visit showed: outgrown or not. */
export function deviceLives(state: VisitState, model: GrowthModel, noise: Noise, seed: number): DeviceLives {
  const { known, castAgeYears, allowanceMm, outgrown } = state;
  const posterior = condition(known, model, noise);
  const today = dayAtAge(known.visits[known.visits.length - 1].ageYears);
  const cast = dayAtAge(castAgeYears);
  const older = cast < today ? [cast] : [];
  const days = [...older, ...AHEAD.map((d) => today + d)];
  const [paths] = posterior.sample([seriesOf('leg_length')], days, DRAWS, seed);
  const futures = Array.from({ length: DRAWS }, (_, i) => {
    const path = paths.subarray(i * days.length, (i + 1) * days.length);
    const ahead = path.subarray(older.length);
    const room = path[0] + allowanceMm - ahead[0];
    return {
      room,
      current: pathCrossingDays(AHEAD, ahead, path[0] + allowanceMm),
      renewed: pathCrossingDays(AHEAD, ahead, ahead[0] + allowanceMm),
    };
  });
  // What the visit showed rules futures out; where it was a great surprise the nearest ones are kept.
  const fits = futures.filter(
    ({ room }) => castAgeYears === known.visits.at(-1)?.ageYears || room < 0 === outgrown,
  );
  const kept =
    fits.length >= FEWEST_DRAWS
      ? fits
      : [...futures].sort((a, b) => (outgrown ? a.room - b.room : b.room - a.room)).slice(0, FEWEST_DRAWS);
  return { current: kept.map((f) => f.current), renewed: kept.map((f) => f.renewed) };
}

/** Days a device is worn outgrown, on average, when its replacement is fitted `day` days from now. */
export const lateDays = (lives: readonly number[], day: number): number =>
  lives.reduce((sum, life) => sum + Math.max(0, day - life), 0) / lives.length;

interface Plan {
  readonly nextVisitDays: number;
  readonly costPerDay: number;
}

/** The next visit at which a price paid once and the days outgrown until then cost least per day. */
function cheapest(lives: readonly number[], price: number, turnaroundDays: number): Plan {
  let best: Plan = { nextVisitDays: SOONEST_DAYS, costPerDay: Infinity };
  for (let day = SOONEST_DAYS; day <= LATEST_DAYS; day += 7) {
    const costPerDay = (price + lateDays(lives, day + turnaroundDays)) / day;
    if (costPerDay < best.costPerDay) best = { nextVisitDays: day, costPerDay };
  }
  return best;
}

/**
 * Forecast-driven recall as a renewal problem. A visit and a cast each have a price in days outgrown. With a new
 * device at every visit, the best next visit gives the least cost a day, g (renewal reward; Barlow & Hunter 1960,
 * Operations Research 8:90, age replacement). The device worn is kept where some next visit of its own costs, for
 * the visit alone, no more than g a day; else a new one is cast today.
 */
export function plannedRecall(
  model: GrowthModel,
  noise: Noise,
  seed: number,
  prices: { readonly visitDays: number; readonly castDays: number },
): RecallPolicy {
  return {
    policy: 'forecast-driven',
    setting: `least cost: a visit weighs ${prices.visitDays}, a cast ${prices.castDays} days outgrown`,
    decide(state) {
      const lives = deviceLives(state, model, noise, seed);
      const renew = cheapest(lives.renewed, prices.visitDays + prices.castDays, state.turnaroundDays);
      const keep = cheapest(lives.current, prices.visitDays, state.turnaroundDays);
      const recast = state.outgrown || keep.costPerDay > renew.costPerDay;
      return { recast, nextVisitDays: (recast ? renew : keep).nextVisitDays };
    },
  };
}

/** At a visit, cast ahead when it is more likely than not that the device is outgrown within this time, days. */
const AHEAD_WINDOW_DAYS = 75;

/** Forecast-driven recall by one risk tolerance: see the child again when the chance of outgrowing reaches it. */
export function riskRecall(model: GrowthModel, noise: Noise, seed: number, tolerance: number): RecallPolicy {
  return {
    policy: 'forecast-driven',
    setting: `recall at ${Math.round(tolerance * 100)} % chance outgrown, cast ahead at 50 % within ${AHEAD_WINDOW_DAYS} days`,
    decide(state) {
      const lives = deviceLives(state, model, noise, seed);
      const chanceWithin = (list: readonly number[], day: number) =>
        list.filter((life) => life <= day).length / list.length;
      const recast =
        state.outgrown || chanceWithin(lives.current, AHEAD_WINDOW_DAYS + state.turnaroundDays) >= 0.5;
      const worn = recast ? lives.renewed : lives.current;
      let day = SOONEST_DAYS;
      while (day < LATEST_DAYS && chanceWithin(worn, day + 7 + state.turnaroundDays) <= tolerance) day += 7;
      return { recast, nextVisitDays: day };
    },
  };
}
