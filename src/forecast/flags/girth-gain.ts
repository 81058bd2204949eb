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
    const forecast = input.answers.get(plan.device.id)?.forecast;
    // Straps and flares answer a girth, so it decides when something is to be done before anything ends the device.
    const driver = forecast?.adjustments?.[0];
    if (!driver?.p50 || measures[driver.series.measure].skeletal) return [];
    if (forecast?.p50 && forecast.p50 < driver.p50) return [];
    const seen = `${plainSeries(driver.series)} asks for an adjustment before any length does.`;
    return [
      flag(input, `girth-drives-${plan.device.id}`, 'note', cautions.girths, seen, {
        series: driver.series,
        deviceId: plan.device.id,
      }),
    ];
  });
  return [...rising, ...driving];
}
