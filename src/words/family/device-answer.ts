import { type DeviceForecast, saysNothing } from '../../forecast/contract.js';
import type { Action } from '../../recall/contract.js';
import type { FamilyWords, UrgentReason, WornDevice } from './family-words.js';
import { firstThirdAfter, lastThirdBefore } from './month-thirds.js';

type Told = Pick<DeviceForecast, 'outcome' | 'today' | 'p10' | 'p50' | 'p90'>;

export interface DeviceAnswer {
  readonly sentence: string;
  /** What the dates mean; empty where there is none. */
  readonly meaning: string;
}

/**
 * What a family reads of one device: what is wanted of it first, else how long it fits. 'May be too small' only where
 * that is likelier than not; a month is named only where the whole of the third named keeps what is said of it.
 */
export function deviceAnswer(
  words: FamilyWords,
  device: WornDevice,
  action: Action,
  forecast: Told,
  why: UrgentReason = 'other',
): DeviceAnswer {
  const it = words.device(device);
  const { outcome, today, p10, p50, p90 } = forecast;
  const only = (sentence: string): DeviceAnswer => ({ sentence, meaning: '' });
  const wanted = words.wanted(action, device, why);
  if (action === 'see-now' || action === 'repair') return only(wanted!);
  const small = outcome === 'already-outgrown' || (p50 !== null && p50 <= today);
  if (small) return only(words.mayBeSmall(it));
  if (wanted !== null) return only(wanted);
  if (outcome === 'full-grown' || outcome === 'adult' || outcome === 'palliative')
    return only(words.byWear(it));
  // What nothing is known of does not fit 'for a long time'.
  if (saysNothing(forecast)) return only(words.wanted('check', device, why)!);
  if (outcome === 'beyond-horizon' || p10 === null || p50 === null) return only(words.longTime(it));
  const fits = lastThirdBefore(p10);
  const over = lastThirdBefore(today);
  // So near that no third is left to name: a look, not a date.
  if (
    fits.month < over.month ||
    (fits.month === over.month && thirds.indexOf(fits.third) <= thirds.indexOf(over.third))
  )
    return only(words.wanted('check', device, why)!);
  return {
    sentence: words.fitsUntil(it, words.month(fits)),
    meaning: words.meaning(words.month(fits), p90 && words.month(firstThirdAfter(p90))),
  };
}

const thirds = ['early', 'middle', 'late'] as const;
