import type { IsoDate } from '../dates.js';
import { measures } from '../measure.js';
import type { Measurement } from '../records.js';
import { dateFaults, type Fault, rangeFaults } from './refuse.js';

type Reading = Pick<Measurement, 'measure' | 'side' | 'value' | 'date'> &
  Partial<Pick<Measurement, 'technicalError'>>;

/** A technical error this many times smaller or larger than the measure's own is a slip of the keyboard. */
const ERROR_FACTOR = 20;

/** What cannot be: a side where there is none, an impossible size, a date before birth or after today. */
export function* readingFaults(reading: Reading, birthDate: IsoDate, today: IsoDate): Generator<Fault> {
  const { label, sided, plausible, unit, technicalError: usual } = measures[reading.measure];
  if (sided !== (reading.side !== 'none'))
    yield { what: label, field: 'side', given: reading.side, accepted: sided ? 'left or right' : 'none' };
  yield* rangeFaults(label, 'value', reading.value, plausible, unit);
  if (reading.technicalError != null)
    yield* rangeFaults(
      label,
      'technicalError',
      reading.technicalError,
      [usual / ERROR_FACTOR, usual * ERROR_FACTOR],
      unit,
    );
  yield* dateFaults(label, 'date', reading.date, { from: birthDate, since: 'birth', today });
}
