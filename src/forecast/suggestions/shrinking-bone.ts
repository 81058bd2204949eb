import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber } from '../../records/dates.js';
import { measures, seriesKey, technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, plainSeries, wholeMm } from '../words.js';

/** The latest reading can be taken again, so 95 % is enough to ask; of older pairs only what chance hardly makes (99.9 %). */
const LATEST = 1.96;
const OLDER = 3.29;

/**
 * A skeletal length that fell by more than its detectable change (latest visit: 2.77 technical errors): error until
 * proved. Of both sides together less is as much: that many errors of their mean.
 */
export function shrinkingBoneSuggestions(record: ChildRecord): DataSuggestion[] {
  const bones = record.measurements.filter(
    (m) => measures[m.measure].skeletal && m.measure !== 'head_diagonal',
  );
  return [...groupBy(bones, (m) => seriesKey(m)).values()].flatMap((rows) => {
    const sorted = [...rows].sort((a, b) => dayNumber(a.date) - dayNumber(b.date));
    return sorted.slice(1).flatMap((m, i) => {
      const before = sorted[i];
      const error = (r: typeof m) =>
        r.technicalError ?? technicalErrorAt(r.measure, decimalAgeYears(record.child.birthDate, r.date));
      const errors = i === sorted.length - 2 ? LATEST : OLDER;
      const alone = errors * Math.hypot(error(m), error(before));
      const detectable =
        fellBy(otherSide(bones, before), otherSide(bones, m)) > alone / Math.SQRT2
          ? alone / Math.SQRT2
          : alone;
      if (m.date === before.date || fellBy(before, m) <= detectable) return [];
      return [
        {
          id: `shrinking-bone-${m.id}`,
          childId: record.child.id,
          kind: 'shrinking-bone' as const,
          measurementIds: [before.id, m.id],
          deviceId: null,
          seen: `${plainSeries(m)} fell from ${wholeMm(before.value)} on ${plainDate(before.date)} to ${wholeMm(m.value)} on ${plainDate(m.date)}; more than measuring error (${wholeMm(detectable)}).`,
          corrections: [],
          action: 'Measure again, with the same landmark, instrument and position.',
        },
      ];
    });
  });
}

const otherSide = (bones: readonly Measurement[], { measure, date, side }: Measurement) =>
  side === 'none'
    ? undefined
    : bones.find((m) => m.measure === measure && m.date === date && m.side !== side);

const fellBy = (from: Measurement | undefined, to: Measurement | undefined): number =>
  from && to ? from.value - to.value : 0;
