import type { IsoDate } from '../dates.js';
import type { MaturityMarker } from '../records.js';
import { dateFaults, type Fault } from './refuse.js';

interface Range {
  readonly min: number;
  readonly max: number;
  readonly whole?: true;
  readonly unit: string;
}

/** What a marker's value can be; kinds that are not here carry no value, their date says all. */
export const markerValues: Readonly<Partial<Record<MaturityMarker['kind'], Range>>> = {
  // Atlases of the hand and wrist end at 18 or 19 years (common practice, no source).
  'bone-age': { min: 0, max: 20, unit: 'years' },
  'hand-stage': { min: 1, max: 8, whole: true, unit: 'stage' },
  'pelvis-stage': { min: 0, max: 5, whole: true, unit: 'stage' },
  'maturity-offset': { min: -10, max: 10, unit: 'years' },
};
/** No reader and no formula is surer of a maturity than a tenth of a year (common practice, no source). */
const SD_RANGE: Range = { min: 0.1, max: 5, unit: 'years' };

export function* markerFaults(
  marker: Pick<MaturityMarker, 'kind' | 'date' | 'value' | 'sdYears'>,
  birthDate: IsoDate,
  today: IsoDate,
): Generator<Fault> {
  const what = `Marker ${marker.kind}`;
  const range = markerValues[marker.kind];
  if (range) yield* outside(what, 'value', marker.value, range);
  if (marker.sdYears !== null) yield* outside(what, 'sdYears', marker.sdYears, SD_RANGE);
  yield* dateFaults(what, 'date', marker.date, { from: birthDate, since: 'birth', today });
}

function* outside(
  what: string,
  field: string,
  value: number,
  { min, max, whole, unit }: Range,
): Generator<Fault> {
  if (!(value >= min && value <= max) || (whole && !Number.isInteger(value)))
    yield {
      what,
      field,
      given: String(value),
      accepted: `${whole ? 'a whole number, ' : ''}${min} to ${max} (${unit})`,
    };
}
