import { dayNumber } from '../../records/dates.js';
import { type MaturityMarker, markerRecord } from '../../records/records.js';
import { contentId, type ReadSettings, readRows, type TableResult, uniqueId } from './read-rows.js';
import type { TextTable } from './read-table.js';

const kinds = markerRecord.shape.kind.options;
/** Lowest and highest value a kind of marker can have; kinds left out carry no value. */
const RANGES: Readonly<Partial<Record<MaturityMarker['kind'], readonly [number, number]>>> = {
  'bone-age': [0, 20],
  'hand-stage': [1, 8],
  'pelvis-stage': [0, 5],
  'maturity-offset': [-15, 15],
};

/** markers.csv: signs of how mature a child is. */
export function readMarkers(
  text: TextTable,
  settings: ReadSettings,
  birthOf: (childId: string) => string | null,
): TableResult<MaturityMarker> {
  const used = new Set<string>();
  return readRows('markers', text, settings, (row) => {
    const childId = row.required('child_id');
    const birthDate = birthOf(childId);
    if (childId !== '' && birthDate === null)
      row.refuse('child_id', 'is not the id of a child that was taken');
    const date = row.requiredDate('date');
    if (date && birthDate && dayNumber(date) < dayNumber(birthDate)) {
      row.refuse('date', 'lies before the birth of the child');
    }
    const kind = row.oneOf('kind', kinds, null);
    if (kind === null && row.text('kind') === '') row.refuse('kind', 'is missing');
    const range = kind ? RANGES[kind] : undefined;
    const value = row.number('value', range?.[0], range?.[1]);
    if (range && row.text('value') === '') row.refuse('value', `is missing from a ${kind}`);
    const sdYears = row.number('sd_years');
    if (sdYears !== null && sdYears <= 0) row.refuse('sd_years', 'is not above 0');
    const marker = {
      id: row.upTo('id', 80) || uniqueId(used, contentId('k', childId, date, kind, value)),
      childId,
      date: date ?? '',
      kind: kind ?? 'bone-age',
      value: value ?? 0,
      sdYears,
    } satisfies MaturityMarker;
    return row.ok ? [marker] : [];
  });
}
