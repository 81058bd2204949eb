import { markerFaults, markerValues } from '../../records/check/marker-faults.js';
import { type MaturityMarker, markerRecord } from '../../records/records.js';
import { contentId, type ReadSettings, readRows, type TableResult, uniqueId } from './read-rows.js';
import type { TextTable } from './read-table.js';

const kinds = markerRecord.shape.kind.options;

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
    const kind = row.oneOf('kind', kinds, null);
    if (kind === null && row.text('kind') === '') row.refuse('kind', 'is missing');
    const value = row.number('value');
    if (kind && markerValues[kind] && row.text('value') === '')
      row.refuse('value', `is missing from a ${kind}`);
    const sdYears = row.number('sd_years');
    const marker = {
      id: row.upTo('id', 80) || uniqueId(used, contentId('k', childId, date, kind, value)),
      childId,
      date: date ?? '',
      kind: kind ?? 'bone-age',
      value: value ?? 0,
      sdYears,
    } satisfies MaturityMarker;
    if (row.ok && birthDate) row.refuseFaults(markerFaults(marker, birthDate, settings.today));
    return row.ok ? [marker] : [];
  });
}
