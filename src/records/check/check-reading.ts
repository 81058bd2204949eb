import type { IsoDate } from '../dates.js';
import { measures } from '../measure.js';
import type { Measurement } from '../records.js';
import { checkDate, refuse } from './refuse.js';

type Reading = Pick<Measurement, 'measure' | 'side' | 'value' | 'date'> &
  Partial<Pick<Measurement, 'technicalError'>>;

/** A technical error this many times smaller or larger than the measure's own is a slip of the keyboard. */
const ERROR_FACTOR = 20;

/** Refuses what cannot be: a side where there is none, an impossible size, a date before birth or after today. */
export function checkReading(reading: Reading, birthDate: IsoDate, today: IsoDate, row?: number): void {
  const { label, sided, plausible, unit, technicalError: usual } = measures[reading.measure];
  if (sided !== (reading.side !== 'none'))
    refuse(label, { field: 'side', given: reading.side, accepted: sided ? 'left or right' : 'none', row });
  const check = (field: string, value: number, [min, max]: readonly [number, number]) => {
    if (!(value >= min && value <= max))
      refuse(label, { field, given: String(value), accepted: `${min} to ${max} ${unit}`, row });
  };
  check('value', reading.value, plausible);
  if (reading.technicalError != null)
    check('technicalError', reading.technicalError, [usual / ERROR_FACTOR, usual * ERROR_FACTOR]);
  checkDate(label, 'date', reading.date, { from: birthDate, since: 'birth', today, row });
}
