import { measures } from '../../records/measure.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainSeries, plainSpan } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { detectable, historyOf } from './history-of.js';

/** Two thirds of an SD: one band of a centile chart (common practice). */
const BAND = 0.67;
const WITHIN_DAYS = 430;

/** Weight or a girth rising across a centile band within about a year, or a girth that decides a device's date. */
export function girthGainFlags(input: FlagInput): Flag[] {
  const rising = historyOf(input, [
    'weight',
    'calf_girth',
    'thigh_girth',
    'waist_girth',
    'hip_girth',
  ]).flatMap(({ series, visits }) => {
    const last = visits.at(-1);
    const from = visits.find((v) => last && v.day >= last.day - WITHIN_DAYS && v.day < last.day - 60);
    if (!last || !from || last.z === null || from.z === null || last.ageYears < 2) return [];
    const shift = last.z - from.z;
    if (shift < Math.max(BAND, detectable(last.zError, from.zError))) return [];
    const seen = `${plainSeries(series)} rose by ${shift.toFixed(1)} SD in ${plainSpan(last.day - from.day)}.`;
    return [
      flag(input, `girth-gain-${series.measure}-${series.side}`, 'check', cautions.girths, seen, { series }),
    ];
  });
  const driving = input.plans.flatMap((plan) => {
    const driver = input.answers.get(plan.device.id)?.forecast.drivers[0];
    if (!driver || driver.share < 0.5 || measures[driver.series.measure].skeletal) return [];
    const seen = `${plainSeries(driver.series)} decides in ${Math.round(100 * driver.share)} of 100 futures.`;
    return [
      flag(input, `girth-drives-${plan.device.id}`, 'note', cautions.girths, seen, {
        series: driver.series,
        deviceId: plan.device.id,
      }),
    ];
  });
  return [...rising, ...driving];
}
