import type { IsoDate } from '../dates.js';
import type { MaturityMarker } from '../records.js';
import { checkDate, refuse } from './refuse.js';

interface Range {
  readonly min: number;
  readonly max: number;
  readonly whole?: true;
  readonly unit: string;
}

/** What a marker's value can be; kinds that are not here carry no value, their date says all. */
const valueRanges: Partial<Record<MaturityMarker['kind'], Range>> = {
  // Atlases of the hand and wrist end at 18 or 19 years (common practice, no source).
  'bone-age': { min: 0, max: 20, unit: 'years' },
  'hand-stage': { min: 1, max: 8, whole: true, unit: 'stage' },
  'pelvis-stage': { min: 0, max: 5, whole: true, unit: 'stage' },
  'maturity-offset': { min: -10, max: 10, unit: 'years' },
};
/** No reader and no formula is surer of a maturity than a tenth of a year (common practice, no source). */
const SD_RANGE: Range = { min: 0.1, max: 5, unit: 'years' };

export function checkMarker(
  marker: Pick<MaturityMarker, 'kind' | 'date' | 'value' | 'sdYears'>,
  birthDate: IsoDate,
  today: IsoDate,
  row?: number,
): void {
  const what = `Marker ${marker.kind}`;
  const check = (field: string, value: number, { min, max, whole, unit }: Range) => {
    if (!(value >= min && value <= max) || (whole && !Number.isInteger(value)))
      refuse(what, {
        field,
        given: String(value),
        accepted: `${whole ? 'a whole number, ' : ''}${min} to ${max} (${unit})`,
        row,
      });
  };
  const range = valueRanges[marker.kind];
  if (range) check('value', marker.value, range);
  if (marker.sdYears !== null) check('sdYears', marker.sdYears, SD_RANGE);
  checkDate(what, 'date', marker.date, { from: birthDate, since: 'birth', today, row });
}
