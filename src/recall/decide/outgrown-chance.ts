import type { DeviceForecast } from '../../forecast/contract.js';
import { type DayNumber, dayNumber } from '../../records/dates.js';

/** A forecast's chance of being outgrown as a function of the day. */
export interface OutgrownChance {
  readonly firstDay: DayNumber;
  readonly lastDay: DayNumber;
  /**
   * Chance of being outgrown on or before `day`, linear between the forecast's dates. Before its first date 0 (what
   * was so then is not forecast), after its last date the last chance: a forecast claims nothing past its horizon.
   */
  at(day: DayNumber): number;
  /** Expected days outgrown before `day`: the area under the chance from the first date, days. */
  daysOutgrownBefore(day: DayNumber): number;
}

/** Null when the forecast carries no chances. */
export function outgrownChance(
  forecast: Pick<DeviceForecast, 'dates' | 'probabilityOutgrown'>,
): OutgrownChance | null {
  const n = forecast.dates.length;
  if (n === 0) return null;
  const days = forecast.dates.map(dayNumber);
  const chance = forecast.probabilityOutgrown;
  const area = new Float64Array(n);
  for (let i = 1; i < n; i++) {
    area[i] = area[i - 1] + ((chance[i] + chance[i - 1]) / 2) * (days[i] - days[i - 1]);
  }
  /** Largest i with days[i] <= day. */
  const segment = (day: DayNumber) => {
    let low = 0;
    let high = n - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (days[middle] <= day) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const at = (day: DayNumber) => {
    if (day < days[0]) return 0;
    const i = segment(day);
    if (i === n - 1) return chance[n - 1];
    return chance[i] + ((chance[i + 1] - chance[i]) * (day - days[i])) / (days[i + 1] - days[i]);
  };
  return {
    firstDay: days[0],
    lastDay: days[n - 1],
    at,
    daysOutgrownBefore(day) {
      if (day <= days[0]) return 0;
      const i = segment(day);
      return area[i] + ((chance[i] + at(day)) / 2) * (day - days[i]);
    },
  };
}
