import type { DeviceForecast } from '../../forecast/contract.js';
import { chanceOn, dayOfChance, lastOnOrBefore } from '../../forecast/device/chance-by-day.js';
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
  const at = (day: DayNumber) => chanceOn(days, chance, day);
  return {
    firstDay: days[0],
    lastDay: days[n - 1],
    at,
    dayOf(p) {
      const day = dayOfChance(days, chance, p);
      return day === null ? null : Math.ceil(day - 1e-9);
    },
    daysBeyondUseBefore(day) {
      if (day <= days[0]) return 0;
      const i = lastOnOrBefore(days, day);
      return area[i] + ((chance[i] + at(day)) / 2) * (day - days[i]);
    },
  };
}
