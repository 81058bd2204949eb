import { decimalAgeYears } from '../../records/age.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { usualLifetimeMonths } from '../../rules/by-age.js';
import type { DeviceForecast } from '../contract.js';
import type { DevicePlan } from './device-plan.js';

/** Usual life by wear, from fitting (or cast) at the age then. */
export function usualLife(
  plan: Pick<DevicePlan, 'rule' | 'history'>,
  birthDate: IsoDate,
): DeviceForecast['usualLifeEnds'] {
  const from = plan.history.fittedDate ?? plan.history.castDate;
  const months = usualLifetimeMonths(plan.rule, decimalAgeYears(birthDate, from));
  if (!months) return null;
  return { from: addDaysIso(from, months.low * 30.44), to: addDaysIso(from, months.high * 30.44) };
}
