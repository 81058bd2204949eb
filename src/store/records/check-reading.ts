import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../../records/dates.js';
import { measures } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';

type Reading = Pick<Measurement, 'measure' | 'side' | 'value' | 'date'>;

/** Refuses what cannot be: a side where there is none, an impossible size, a date before birth or after today. */
export function checkReading(reading: Reading, birthDate: IsoDate, today: IsoDate, row?: number): void {
  const measure = measures[reading.measure];
  const refuse = (field: string, given: string, accepted: string) => {
    throw new DoorpostError(
      'invalid-value',
      `${measure.label}: ${field} '${given}' cannot be; accepted: ${accepted}`,
      { row, field, given, accepted },
    );
  };
  if (measure.sided !== (reading.side !== 'none'))
    refuse('side', reading.side, measure.sided ? 'left or right' : 'none');
  const [min, max] = measure.plausible;
  if (!(reading.value >= min && reading.value <= max))
    refuse('value', String(reading.value), `${min} to ${max} ${measure.unit}`);
  if (reading.date < birthDate || reading.date > today)
    refuse('date', reading.date, 'a date from birth to today');
}
