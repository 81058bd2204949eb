import { decimalAgeYears, GROWN_YEARS } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { DeviceHistory } from '../../records/device-history.js';
import type { ForecastOutcome } from '../contract.js';
import { plainDate } from '../words.js';

export interface NamedOutcome {
  readonly outcome: ForecastOutcome;
  readonly explanation: string;
}

/** Outcomes that need no growth model: not in use, palliative care, adult. Null where growth decides. */
export function namedOutcome(
  record: ChildRecord,
  device: Device,
  history: DeviceHistory,
  today: IsoDate,
): NamedOutcome | null {
  const { child } = record;
  if (child.status !== 'active')
    return { outcome: 'not-in-use', explanation: 'No longer under this clinic, so nothing is planned.' };
  if (device.status === 'retired' || history.retiredOn !== null)
    return {
      outcome: 'not-in-use',
      explanation: history.retiredOn
        ? `Retired on ${plainDate(history.retiredOn)}.`
        : 'Retired; no date is worked out.',
    };
  if (child.palliative)
    return {
      outcome: 'palliative',
      explanation:
        'Comfort and skin decide, not growth: review by wear and by what the family asks for; no outgrown date is worked out.',
    };
  if (decimalAgeYears(child.birthDate, today) >= GROWN_YEARS) return adultOutcome;
  return null;
}

export const adultOutcome: NamedOutcome = {
  outcome: 'adult',
  explanation:
    'An adult does not outgrow a device: review by wear, lifetime, weight and condition; no outgrown date is worked out.',
};
