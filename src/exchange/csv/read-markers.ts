import { markerFaults, markerValues } from '../../records/check/marker-faults.js';
import type { MaturityMarker } from '../../records/records.js';
import { readFields } from './read-fields.js';
import { type ReadSettings, readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';

/** markers.csv: signs of how mature a child is. */
export function readMarkers(
  text: TextTable,
  settings: ReadSettings,
  birthOf: (childId: string) => string | null,
): TableResult<MaturityMarker> {
  return readRows('markers', text, settings, (row) => {
    const [childId, birthDate] = row.of('child', birthOf);
    const own = readFields(row, 'markers', ['date', 'kind', 'sdYears']);
    const { date, kind } = own;
    const value = row.number('value');
    if (markerValues[kind] && row.text('value') === '') row.refuse('value', `is missing from a ${kind}`);
    const marker = {
      id: row.id('k', childId, date, kind, value),
      childId,
      ...own,
      value: value ?? 0,
    } satisfies MaturityMarker;
    if (row.ok && birthDate) row.refuseFaults(markerFaults(marker, birthDate, settings.today));
    return row.ok ? [marker] : [];
  });
}
