import type { ChildRecord } from '../../records/caseload.js';
import { measures, seriesKey } from '../../records/measure.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, plainSeries } from '../words.js';

/** The same value of the same dimension on the same day, entered more than once by the same observer. */
export function duplicateSuggestions(record: ChildRecord): DataSuggestion[] {
  const groups = groupBy(record.measurements, (m) => `${seriesKey(m)}/${m.date}/${m.value}/${m.observer}`);
  return [...groups.values()].flatMap((rows): DataSuggestion[] =>
    rows.length < 2
      ? []
      : [
          {
            id: `duplicate-${rows[1].id}`,
            childId: record.child.id,
            kind: 'duplicate',
            measurementIds: rows.map((m) => m.id),
            deviceId: null,
            seen: `${plainSeries(rows[0])} of ${plainDate(rows[0].date)}, ${rows[0].value} ${measures[rows[0].measure].unit}, is there ${rows.length} times.`,
            corrections: rows.slice(1).map((m) => ({ measurementId: m.id, exclude: true as const })),
            action: 'Count it once; the other rows are kept in the record.',
          },
        ],
  );
}
