import type { ChildPosterior } from '../../growth/contract.js';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber } from '../../records/dates.js';
import { measures, seriesKey, technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DataSuggestion } from '../contract.js';
import { isStillToGrow } from '../still-to-grow.js';
import { plainDate, plainSeries, wholeMm } from '../words.js';

/** SD off from which it is asked: 99 % for the latest reading, which can be taken again; of older pairs only what chance hardly makes (99.95 %). */
const LATEST = 2.33;
const OLDER = 3.29;
/**
 * SD of a child's growth between two visits about its centile's, as a share of that. Of 600 children drawn from the model, both feet read half
 * a year apart, up to the ages below: 1.2-2 in 100 were asked about; where the first visit was in shoes, 8 mm more, 84 in 100.
 */
const PACE_SHARE = 0.25;
/** Younger children move across centiles (common practice, no source). */
const ON_CENTILE_YEARS = 2;

/** How a length went on from one reading to the next. */
interface Step {
  readonly expectedMm: number;
  /** Less than expected by so much, and the SD of both readings' errors. */
  readonly shortMm: number;
  readonly errorMm: number;
}

/**
 * A skeletal length that fell, or grew so much less than on its centile that neither error nor pace explains it: one of the two
 * readings is in error until proved. Of both sides together less is as much.
 */
export function shrinkingBoneSuggestions(
  record: ChildRecord,
  posterior: ChildPosterior | null,
): DataSuggestion[] {
  const bones = record.measurements.filter(
    (m) => measures[m.measure].skeletal && m.measure !== 'head_diagonal',
  );
  return [...groupBy(bones, (m) => seriesKey(m)).values()].flatMap((rows) => {
    const sorted = [...rows].sort((a, b) => dayNumber(a.date) - dayNumber(b.date));
    return sorted.slice(1).flatMap((m, i) => {
      const before = sorted[i];
      if (m.date === before.date) return [];
      const own = stepOf(record, posterior, before, m);
      const [from, to] = [otherSide(bones, before), otherSide(bones, m)];
      const others = from && to ? [stepOf(record, posterior, from, to)] : [];
      const errors = i === sorted.length - 2 ? LATEST : OLDER;
      if (![[own], [own, ...others]].some((steps) => isTooShort(steps, errors))) return [];
      return [
        {
          id: `shrinking-bone-${m.id}`,
          childId: record.child.id,
          kind: 'shrinking-bone' as const,
          measurementIds: [before.id, m.id],
          deviceId: null,
          seen: `${plainSeries(m)} went from ${wholeMm(before.value)} on ${plainDate(before.date)} to ${wholeMm(m.value)} on ${plainDate(m.date)}, where about ${wholeMm(own.expectedMm)} of growth was expected; error and pace do not explain it.`,
          corrections: [],
          action: 'Measure again, without shoes, with the same landmark, instrument and position.',
        },
      ];
    });
  });
}

/** The mean of one or both sides lies so many SD below what was expected; errors are each side's own, the pace is the child's. */
function isTooShort(steps: readonly Step[], sds: number): boolean {
  const mean = (of: (step: Step) => number) => steps.reduce((sum, s) => sum + of(s), 0) / steps.length;
  const error = mean((s) => s.errorMm) / Math.sqrt(steps.length);
  return mean((s) => s.shortMm) > sds * Math.hypot(error, PACE_SHARE * mean((s) => s.expectedMm));
}

function stepOf(
  { child }: ChildRecord,
  posterior: ChildPosterior | null,
  before: Measurement,
  m: Measurement,
): Step {
  const age = (r: Measurement) => decimalAgeYears(child.birthDate, r.date);
  const error = (r: Measurement) => r.technicalError ?? technicalErrorAt(r.measure, age(r));
  const grows = age(before) >= ON_CENTILE_YEARS && isStillToGrow(child.sex, age(m));
  const shortOfCentile = (grows && posterior && belowCentile(posterior, before, m)) || 0;
  const grownMm = m.value - before.value;
  const expectedMm = Math.max(0, grows ? grownMm + shortOfCentile : 0);
  return { expectedMm, shortMm: expectedMm - grownMm, errorMm: Math.hypot(error(m), error(before)) };
}

/** By how much the later reading is smaller than it would be on the earlier one's centile, mm; null without a reference. */
function belowCentile({ zScore }: ChildPosterior, before: Measurement, m: Measurement): number | null {
  const day = dayNumber(m.date);
  const [was, is, oneMore] = [
    zScore(before, dayNumber(before.date), before.value),
    zScore(m, day, m.value),
    zScore(m, day, m.value + 1),
  ];
  return was === null || is === null || oneMore === null ? null : (was - is) / (oneMore - is);
}

const otherSide = (bones: readonly Measurement[], { measure, date, side }: Measurement) =>
  side === 'none'
    ? undefined
    : bones.find((m) => m.measure === measure && m.date === date && m.side !== side);
