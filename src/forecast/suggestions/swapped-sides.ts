import { median } from 'simple-statistics';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type MeasureId, measures, technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, wholeMm } from '../words.js';

/**
 * Exchanged sides are rare (about 1 visit in 200): the evidence must be `strong`, as a log likelihood ratio, and the exchanged
 * difference lie within `nearSd` SD of the other visits'. Dates rest on the last visit: of two sides that differ by all but the
 * opposite less is asked for, as both are measured again then, exchanged or not.
 */
const ASKED = [
  { strong: 6, nearSd: 2, ofLast: false },
  { strong: 2.5, nearSd: 1, ofLast: true },
];

/**
 * Left and right exchanged at one visit. The difference g = left - right is compared with the median u of the other visits'
 * (at least two), both with their measuring error s: exchanged rather than as entered has log likelihood ratio
 * -2 g u / s^2.
 */
export function swappedSideSuggestions(record: ChildRecord): DataSuggestion[] {
  const sided = record.measurements.filter((m) => measures[m.measure].sided && m.side !== 'none');
  return [...groupBy(sided, (m) => m.measure)].flatMap(([measure, rows]) => {
    const pairs = [...groupBy(rows, (m) => m.date)].flatMap(([date, day]) => {
      const left = day.find((m) => m.side === 'left');
      const right = day.find((m) => m.side === 'right');
      return left && right ? [{ date, left, right, gap: left.value - right.value }] : [];
    });
    const last = pairs
      .map((p) => p.date)
      .sort()
      .at(-1);
    return pairs.flatMap((pair) => {
      const others = pairs.filter((p) => p !== pair).map((p) => p.gap);
      if (others.length < 2) return [];
      const usual = median(others);
      const error = technicalErrorAt(measure, decimalAgeYears(record.child.birthDate, pair.date));
      const variance = 2 * error ** 2 * (1 + Math.PI / 2 / others.length);
      const ratio = (-2 * pair.gap * usual) / variance;
      const off = Math.abs(pair.gap + usual) / Math.sqrt(variance);
      const asked = ASKED.some(
        ({ strong, nearSd, ofLast }) => ratio >= strong && off <= nearSd && (!ofLast || pair.date === last),
      );
      if (!asked) return [];
      return [suggestion(record, measure, pair, usual)];
    });
  });
}

function suggestion(
  record: ChildRecord,
  measure: MeasureId,
  pair: { date: string; left: Measurement; right: Measurement; gap: number },
  usual: number,
): DataSuggestion {
  const label = measures[measure].label.toLowerCase();
  return {
    id: `swapped-sides-${pair.left.id}`,
    childId: record.child.id,
    kind: 'swapped-sides',
    measurementIds: [pair.left.id, pair.right.id],
    deviceId: null,
    seen: `${label} on ${plainDate(pair.date)}: left less right is ${wholeMm(pair.gap)}; at the other visits it was about ${wholeMm(usual)}.`,
    corrections: [
      { measurementId: pair.left.id, side: 'right' },
      { measurementId: pair.right.id, side: 'left' },
    ],
    action: 'Exchange left and right of this visit; the entry as typed is kept.',
  };
}
