import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainSpan, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { detectable, historyOf } from './history-of.js';

/** More than one SD relative to growth in length asks for referral (EBM Guidelines, excerpt). */
const SHIFT = 1;
const WITHIN_DAYS = 190;
/** Within so few weeks so much upwards is growth at more than twice the usual pace (common practice, no source). */
const SOON_DAYS = 42;
const SOON_SHIFT = 0.75;
const UNTIL_YEARS = 5;

/**
 * Head circumference crossing centiles: up or down by more than one SD within half a year, or faster, and beyond
 * measuring error. It halts a cranial forecast (see assess-child.ts).
 */
export function headGrowthFlags(input: Pick<FlagInput, 'record' | 'posterior'>): Flag[] {
  const visits = historyOf(input, ['head_circumference'])[0]?.visits ?? [];
  const last = visits.at(-1);
  if (!last || last.z === null || last.ageYears > UNTIL_YEARS) return [];
  const recent = visits.filter((v) => v.z !== null && v.day < last.day && v.day >= last.day - WITHIN_DAYS);
  const series = { measure: 'head_circumference', side: 'none' } as const;
  const shifts = recent
    .map((from) => ({ from, shift: last.z! - from.z!, beyond: detectable(last.zError, from.zError) }))
    .filter(({ from, shift, beyond }) => {
      const soon = shift > 0 && last.day - from.day <= SOON_DAYS;
      return Math.abs(shift) > Math.max(soon ? SOON_SHIFT : SHIFT, beyond);
    })
    .sort((a, b) => Math.abs(b.shift) - Math.abs(a.shift));
  const worst = shifts[0];
  if (!worst) return [];
  const seen = `Head circumference changed by ${wholeMm(last.value - worst.from.value)} in ${plainSpan(last.day - worst.from.day)}: ${Math.abs(worst.shift).toFixed(1)} SD ${worst.shift > 0 ? 'up' : 'down'}.`;
  return worst.shift > 0
    ? [flag(input, 'head-growth-up', 'act-now', cautions.headGrowth, seen, { series })]
    : [flag(input, 'head-growth-down', 'check', cautions.headFlat, seen, { series })];
}
