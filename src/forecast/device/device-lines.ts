import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { adjustableLeftOn, type DimensionLimit, limitOn } from '../../rules/dimension-limits.js';
import { floatsOf } from '../../statistics/floats-of.js';
import type { Futures } from '../futures.js';
import type { DevicePlan } from './device-plan.js';
import type { PassageLift } from './first-passage.js';
import { clearUntil } from './judgements.js';
import type { OwnDeviation } from './own-limit.js';
import type { OwnLimit } from './passage-curve.js';

/** A device's limits as lines that a path must not cross. */
export interface DeviceLines {
  /** Past it something must be done: the limit as adjusted so far. */
  readonly wanted: readonly OwnLimit[];
  /** Past it nothing can be done any more: with every adjustment still to be had, and what bars further down lift. */
  readonly spent: readonly OwnLimit[];
}

export function deviceLines(plan: DevicePlan, futures: Futures, own: readonly OwnDeviation[]): DeviceLines {
  const { limits, search, history } = plan;
  const dates = search.map((d) => isoDate(d));
  const castIndex = futures.days.indexOf(dayNumber(history.castDate));
  const clear = clearUntil(plan.judgements, limits.length);
  const wanted = limits.map((limit, d): OwnLimit => {
    const lifts = liftsOf(limit, futures, castIndex, dates);
    return {
      path: futures.paths.get(seriesKey(limit.series))!,
      castIndex: limit.kind === 'growth' ? castIndex : null,
      limitMm: stepped(limit, dates, limitOn),
      own: own[d],
      from: firstAfter(search, clear[d]),
      ...(lifts.length > 0 ? { lifts } : {}),
    };
  });
  const spent = wanted.map((line, d) => {
    const left = stepped(limits[d], dates, adjustableLeftOn);
    return left.some((mm) => mm > 0) ? { ...line, limitMm: left.map((mm, j) => line.limitMm[j] + mm) } : line;
  });
  return { wanted, spent };
}

/** A figure that changes only on the days of adjustments, for every day searched. */
function stepped(
  limit: DimensionLimit,
  dates: readonly IsoDate[],
  of: (limit: DimensionLimit, date: IsoDate) => number,
): Float64Array {
  const values = new Float64Array(dates.length);
  if (limit.gains.length === 0) return values.fill(of(limit, dates[0] ?? ''));
  const first = (day: IsoDate) => dates.findIndex((date) => date >= day);
  const steps = [...new Set([0, ...limit.gains.map((g) => first(g.date))])].filter((j) => j >= 0);
  for (const j of steps.sort((a, b) => a - b)) values.fill(of(limit, dates[j] ?? ''), j);
  return values;
}

function liftsOf(
  limit: DimensionLimit,
  futures: Futures,
  castIndex: number,
  dates: readonly IsoDate[],
): PassageLift[] {
  return limit.liftedBy.flatMap(({ series, rangeMm, gains }) => {
    const path = futures.paths.get(seriesKey(series));
    if (!path) return [];
    const givenMm = floatsOf(dates, (on) => gains.reduce((sum, g) => (g.date <= on ? sum + g.mm : sum), 0));
    return [{ path, castIndex, givenMm, leftMm: givenMm.map((g) => Math.max(0, rangeMm - g)) }];
  });
}

/** Index of the first day searched after a day; all of them where there is none. */
function firstAfter(search: readonly DayNumber[], day: DayNumber): number {
  const at = search.findIndex((d) => d > day);
  return at < 0 ? search.length : at;
}
