import type { DeviceForecast } from '../../forecast/contract.js';
import { dayNumber, type IsoDate } from '../../records/dates.js';
import type { TurnaroundEstimate } from '../contract.js';
import { beyondUseChance } from '../decide/beyond-use-chance.js';

export interface CastCosts {
  readonly outgrownDays: number[];
  readonly wastedDays: number[];
}

/** Every fifth of the turnaround's equally likely values: enough for a mean, a fifth of the work. */
const EVERY = 5;

/**
 * What casting a device on each day costs: expected days outgrown before the replacement is fitted, and expected days
 * of useful life left in the old device when it is (up to the forecast's horizon), both over the turnaround's spread.
 */
export function castCosts(
  device: { readonly forecast: Pick<DeviceForecast, 'dates' | 'probabilityOutgrown'> | null },
  turnaround: Pick<TurnaroundEstimate, 'samplesDays'>,
  days: readonly IsoDate[],
  fitWaitDays: number,
): CastCosts {
  const chance = device.forecast ? beyondUseChance(device.forecast) : null;
  if (!chance) return { outgrownDays: days.map(() => 0), wastedDays: days.map(() => 0) };
  const waits = turnaround.samplesDays.filter(
    (_, i) => i % EVERY === 2 || turnaround.samplesDays.length < EVERY,
  );
  const whole = chance.daysBeyondUseBefore(chance.lastDay);
  const outgrownDays: number[] = [];
  const wastedDays: number[] = [];
  for (const day of days) {
    let outgrown = 0;
    let wasted = 0;
    for (const wait of waits) {
      const fitted = dayNumber(day) + wait + fitWaitDays;
      const before = chance.daysBeyondUseBefore(fitted);
      outgrown += before;
      // Area under 1 - F from fitting to the horizon.
      wasted += Math.max(0, chance.lastDay - fitted - (whole - before));
    }
    outgrownDays.push(outgrown / waits.length);
    wastedDays.push(wasted / waits.length);
  }
  return { outgrownDays, wastedDays };
}
