import type { DayNumber } from '../../records/dates.js';
import type { Futures } from '../futures.js';

/** Every draw's size on a day, mm: linear between the days drawn, the first or last of them outside. */
export function sizesOn({ days, draws }: Futures, path: Float64Array, day: DayNumber): Float64Array {
  const width = days.length;
  let at = 0;
  while (at < width - 2 && days[at + 1] <= day) at++;
  const span = width === 1 ? 1 : days[at + 1] - days[at];
  const share = width === 1 ? 0 : Math.min(1, Math.max(0, (day - days[at]) / span));
  const sizes = new Float64Array(draws);
  for (let i = 0; i < draws; i++) {
    const from = path[i * width + at];
    sizes[i] = share === 0 ? from : from + share * (path[i * width + at + 1] - from);
  }
  return sizes;
}
