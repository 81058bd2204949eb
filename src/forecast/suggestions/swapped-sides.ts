import type { ChildRecord } from '../../devices/caseload.js';
import { decimalAgeYears } from '../../measurements/age.js';
import { type MeasureId, measures, technicalErrorAt } from '../../measurements/measure.js';
import type { Measurement } from '../../measurements/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, wholeMm } from '../words.js';

/**
 * Left and right exchanged at one visit. The difference left - right is compared with the median difference of the
 * other visits (at least two): suspected when the sign turned, exchanging brings it within detectable change of the
 * others, and leaving it does not.
 */
export function swappedSideSuggestions(record: ChildRecord): DataSuggestion[] {
  const sided = record.measurements.filter((m) => measures[m.measure].sided && m.side !== 'none');
  return [...groupBy(sided, (m) => m.measure)].flatMap(([measure, rows]) => {
    const pairs = [...groupBy(rows, (m) => m.date)].flatMap(([date, day]) => {
      const left = day.find((m) => m.side === 'left');
      const right = day.find((m) => m.side === 'right');
      return left && right ? [{ date, left, right, gap: left.value - right.value }] : [];
    });
    return pairs.flatMap((pair) => {
      const others = pairs.filter((p) => p !== pair).map((p) => p.gap);
      if (others.length < 2) return [];
      const usual = [...others].sort((a, b) => a - b)[Math.floor((others.length - 1) / 2)];
      const error = technicalErrorAt(measure, decimalAgeYears(record.child.birthDate, pair.date));
      const detectable = 1.96 * Math.SQRT2 * error;
      const asIs = Math.abs(pair.gap - usual);
      const exchanged = Math.abs(-pair.gap - usual);
      const settled = others.every((g) => Math.sign(g) === Math.sign(usual));
      if (!settled || asIs <= detectable || exchanged > detectable) return [];
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
