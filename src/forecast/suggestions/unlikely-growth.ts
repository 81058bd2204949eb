import type { ChildPosterior } from '../../growth/contract.js';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber } from '../../records/dates.js';
import { measures, seriesKey, technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DataSuggestion } from '../contract.js';
import { isStillToGrow } from '../device/growth-stopped.js';
import { plainDate, plainSeries, wholeMm } from '../words.js';

/** SD too short from which it is asked: 99 % for the latest reading, which puts dates off and can be taken again. */
const LATEST = 2.33;
/** Of older pairs, and of a jump, which brings dates forward, only what chance hardly makes (99.95 %). */
const HARDLY = 3.29;
/**
 * SD of a child's growth between two visits about its centile's, as a share of that. Of 600 children drawn from the model, both feet
 * read half a year apart, younger than the ages below: too short in 1.2-2 of 100 and jumped in less than 1; with shoes on at
 * the first visit, 8 mm more, 82 of 100 were asked about, at the last one, 10 mm more, 85.
 */
const PACE_SHARE = 0.25;
/** Younger children move across centiles, mostly down (common practice, no source). */
const ON_CENTILE_YEARS = 2;

/** How a length went on from one reading to the next. */
interface Step {
  readonly grownMm: number;
  /** On its centile; null without a reference. */
  readonly expectedMm: number | null;
  /** SD of both readings' errors. */
  readonly errorMm: number;
}

/**
 * A skeletal length that fell, or grew so much less or more than on its centile that neither error nor pace explains it: one of
 * the two readings is in error until proved, in shoes or by another instrument. Of both sides together less is as much.
 */
export function unlikelyGrowthSuggestions(
  record: ChildRecord,
  posterior: ChildPosterior | null,
): DataSuggestion[] {
  const bones = record.measurements.filter(
    (m) => measures[m.measure].skeletal && m.measure !== 'head_diagonal',
  );
  return [...groupBy(bones, (m) => seriesKey(m)).values()].flatMap((rows) => {
    const sorted = [...rows].sort((a, b) => dayNumber(a.date) - dayNumber(b.date));
    return sorted.slice(1).flatMap((m, i): DataSuggestion[] => {
      const before = sorted[i];
      if (m.date === before.date) return [];
      const own = stepOf(record, posterior, before, m);
      const [from, to] = [otherSide(bones, before), otherSide(bones, m)];
      const other = from && to ? stepOf(record, posterior, from, to) : null;
      const kind = unlikely(record, before, m, [own, other], i === sorted.length - 2);
      if (kind === null) return [];
      return [
        {
          id: `${kind}-${m.id}`,
          childId: record.child.id,
          kind,
          measurementIds: [before.id, m.id],
          deviceId: null,
          seen: `${plainSeries(m)} went from ${wholeMm(before.value)} on ${plainDate(before.date)} to ${wholeMm(m.value)} on ${plainDate(m.date)}, where about ${wholeMm(own.expectedMm ?? 0)} of growth was expected; error and pace do not explain it.`,
          corrections: [],
          action: 'Measure again, without shoes, with the same landmark, instrument and position.',
        },
      ];
    });
  });
}

/** Too short or, of a limb, too long to be growth. */
function unlikely(
  { child }: ChildRecord,
  before: Measurement,
  m: Measurement,
  sides: readonly [own: Step, other: Step | null],
  isLatest: boolean,
): 'shrinking-bone' | 'jumping-bone' | null {
  const age = (r: Measurement) => decimalAgeYears(child.birthDate, r.date);
  const grows = age(before) >= ON_CENTILE_YEARS && isStillToGrow(child.sex, age(m));
  if (sdOff(sides, grows, -1) > (isLatest ? LATEST : HARDLY)) return 'shrinking-bone';
  // A head that races is a flag of its own.
  const jumps = isLatest && measures[m.measure].sided && sides[0].expectedMm !== null;
  return jumps && sdOff(sides, true, 1) > HARDLY ? 'jumping-bone' : null;
}

/**
 * By how many SD a side alone, or both in the mean, grew more (1) or less (-1) than expected, or than nought. Errors are each side's
 * own, the pace is the child's; what the other side did alone is nothing of this one.
 */
function sdOff([own, other]: readonly [Step, Step | null], isExpected: boolean, sign: 1 | -1): number {
  const sdOf = (steps: readonly Step[]) => {
    const mean = (of: (step: Step) => number) => steps.reduce((sum, s) => sum + of(s), 0) / steps.length;
    const expected = isExpected ? mean((s) => s.expectedMm ?? 0) : 0;
    const error = mean((s) => s.errorMm) / Math.sqrt(steps.length);
    return (sign * (mean((s) => s.grownMm) - expected)) / Math.hypot(error, PACE_SHARE * expected);
  };
  const alone = sdOf([own]);
  return other ? Math.max(alone, Math.min(sdOf([own, other]), 2 * alone)) : alone;
}

function stepOf(
  { child }: ChildRecord,
  posterior: ChildPosterior | null,
  before: Measurement,
  m: Measurement,
): Step {
  const error = (r: Measurement) =>
    r.technicalError ?? technicalErrorAt(r.measure, decimalAgeYears(child.birthDate, r.date));
  const grownMm = m.value - before.value;
  const short = posterior && belowCentile(posterior, before, m);
  return {
    grownMm,
    expectedMm: short === null ? null : Math.max(0, grownMm + short),
    errorMm: Math.hypot(error(m), error(before)),
  };
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
