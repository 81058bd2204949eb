import { DAYS_A_YEAR, type DayNumber, isoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { adjustableLeftOn, type DimensionLimit, limitOn } from '../../rules/dimension-limits.js';
import type { DimensionRoom } from '../contract.js';
import type { Futures } from '../futures.js';
import { sizesOn } from './sizes-on.js';
import { weightedMoments, weightedQuantiles } from './weighted-quantile.js';

const PACE_DAYS = 182;

/** Room of one limit today, and how fast it is being used up from the last reading on. */
export function dimensionRoom(
  limit: DimensionLimit,
  futures: Futures,
  castIndex: number,
  deviationMm: Float64Array,
  weights: Float64Array,
  today: DayNumber,
  lastReading: DayNumber,
): DimensionRoom {
  const { draws, days } = futures;
  const path = futures.paths.get(seriesKey(limit.series))!;
  const now = sizesOn(futures, path, today);
  const [from, to] = [sizesOn(futures, path, lastReading), sizesOn(futures, path, lastReading + PACE_DAYS)];
  const grown = new Float64Array(draws);
  const left = new Float64Array(draws);
  const atCast = new Float64Array(draws);
  const extensionLeftMm = adjustableLeftOn(limit, isoDate(today));
  const line = limitOn(limit, isoDate(today)) + extensionLeftMm;
  for (let i = 0; i < draws; i++) {
    atCast[i] = path[i * days.length + castIndex];
    grown[i] = now[i] - atCast[i];
    left[i] = line + deviationMm[i] - grown[i] - (limit.kind === 'size' ? atCast[i] : 0);
  }
  const g = weightedMoments(grown, weights);
  const cast = weightedMoments(atCast, weights).mean;
  const pace = weightedMoments(
    to.map((size, i) => ((size - from[i]) * DAYS_A_YEAR) / PACE_DAYS),
    weights,
  );
  const [roomLowMm, roomHighMm] = weightedQuantiles(left, weights, [0.1, 0.9]);
  const allowanceMm = limit.kind === 'size' ? line - cast : line;
  return {
    series: limit.series,
    allowanceMm,
    extensionLeftMm,
    grownMm: g.mean,
    grownSdMm: g.sd,
    roomMm: weightedMoments(left, weights).mean,
    roomLowMm,
    roomHighMm,
    paceMmAYear: pace.mean,
    paceSdMmAYear: pace.sd,
    limitMm: cast + allowanceMm,
  };
}
