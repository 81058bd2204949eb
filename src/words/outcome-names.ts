import type { DeviceForecast } from '../forecast/contract.js';

/** What is said of a forecast without dates, or instead of them. */
export const outcomeNames: Readonly<Record<Exclude<DeviceForecast['outcome'], 'forecast'>, string>> = {
  'already-outgrown': 'outgrown now',
  'beyond-horizon': 'not within the forecast',
  'full-grown': 'full-grown: review by wear',
  adult: 'adult: review by wear',
  palliative: 'comfort first: review by wear',
  'too-few-measurements': 'cannot forecast: measure',
  blocked: 'no date: see the caution',
  'no-rule': 'no rule for this family',
  'not-computed': 'cannot forecast: check the record',
  'not-in-use': 'not in use',
};
