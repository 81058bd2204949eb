import type { DeviceForecast } from '../../forecast/contract.js';
import { type DayNumber, dayNumber } from '../../records/dates.js';

/** G: a device's chance of being beyond use as a function of the day, past days included. */
export interface BeyondUseChance {
  readonly firstDay: DayNumber;
  readonly lastDay: DayNumber;
  /**
   * Chance of being beyond use on or before `day`, linear between the forecast's dates; 0 before the cast, after the last
   * date the last chance: a forecast claims nothing past its horizon.
   */
  at(day: DayNumber): number;
  /** First whole day on which the chance is at least p; null where it is not reached. */
  dayOf(p: number): DayNumber | null;
  /** Expected days beyond use before `day`: the area under the chance, days. */
  daysBeyondUseBefore(day: DayNumber): number;
}

/** Null when the forecast carries no chances. */
export function beyondUseChance(
  forecast: Pick<DeviceForecast, 'dates' | 'probabilityOutgrown'>,
): BeyondUseChance | null {
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
    dayOf(p) {
      const i = chance.findIndex((c) => c >= p);
      if (i < 0) return null;
      if (i === 0) return days[0];
      const part = (p - chance[i - 1]) / (chance[i] - chance[i - 1]);
      return Math.ceil(days[i - 1] + part * (days[i] - days[i - 1]) - 1e-9);
    },
    daysBeyondUseBefore(day) {
      if (day <= days[0]) return 0;
      const i = segment(day);
      return area[i] + ((chance[i] + at(day)) / 2) * (day - days[i]);
    },
  };
}
