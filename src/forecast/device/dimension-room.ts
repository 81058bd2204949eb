import { mean, standardDeviation } from 'simple-statistics';
import { DAYS_A_YEAR, type DayNumber, isoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { adjustableLeftOn, type DimensionLimit, limitOn } from '../../rules/dimension-limits.js';
import type { DimensionRoom } from '../contract.js';
import type { Futures } from '../futures.js';
import { sizesOn } from './sizes-on.js';

const PACE_DAYS = 182;

/** Room of one limit today, and how fast it is being used up from the last reading on. */
export function dimensionRoom(
  limit: DimensionLimit,
  futures: Futures,
  castIndex: number,
  deviationMm: Float64Array,
  today: DayNumber,
  lastReading: DayNumber,
): DimensionRoom {
  const { draws, days } = futures;
  const path = futures.paths.get(seriesKey(limit.series))!;
  const now = sizesOn(futures, path, today);
  const [from, to] = [sizesOn(futures, path, lastReading), sizesOn(futures, path, lastReading + PACE_DAYS)];
  const [grown, left, atCast] = [0, 1, 2].map(() => new Array<number>(draws));
  const extensionLeftMm = adjustableLeftOn(limit, isoDate(today));
  const line = limitOn(limit, isoDate(today)) + extensionLeftMm;
  for (let i = 0; i < draws; i++) {
    atCast[i] = path[i * days.length + castIndex];
    grown[i] = now[i] - atCast[i];
    left[i] = line + deviationMm[i] - grown[i] - (limit.kind === 'size' ? atCast[i] : 0);
  }
  const cast = mean(atCast);
  const pace = Array.from(to, (size, i) => ((size - from[i]) * DAYS_A_YEAR) / PACE_DAYS);
  const inOrder = Float64Array.from(left).sort();
  /** The least room that so many of the futures do not exceed. */
  const roomAt = (chance: number) => inOrder[Math.ceil((chance - 1e-12) * draws) - 1];
  const allowanceMm = limit.kind === 'size' ? line - cast : line;
  return {
    series: limit.series,
    allowanceMm,
    extensionLeftMm,
    grownMm: mean(grown),
    grownSdMm: standardDeviation(grown),
    roomMm: mean(left),
    roomLowMm: roomAt(0.1),
    roomHighMm: roomAt(0.9),
    paceMmAYear: mean(pace),
    paceSdMmAYear: standardDeviation(pace),
    limitMm: cast + allowanceMm,
  };
}
