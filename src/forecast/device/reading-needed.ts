import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import type { MeasureId, Series } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { measuresWanted } from '../../rules/measures-wanted.js';
import type { DataSuggestion, ReadingNeeded } from '../contract.js';
import { nearCastDays, staleAfterDays } from '../stale-after.js';
import type { DevicePlan } from './device-plan.js';
import { growthStopped } from './growth-stopped.js';

/** Does it ask about a reading that may be no size of the child's? */
export const isSlip = ({ kind }: DataSuggestion): boolean =>
  kind !== 'duplicate' && kind !== 'limit-below-size';

/**
 * What the answer for a device rests on and nobody knows: the dimension that decides was never measured, not about the
 * time of the cast, not lately for the age; a likely slip is unanswered; growth has stopped or sprung against all the rest.
 * A judgement of the fit since stands in for sizes that are missing or old.
 */
export function readingNeeded(
  record: ChildRecord,
  plan: DevicePlan,
  deciding: Series | null,
  suggestions: readonly DataSuggestion[],
  today: IsoDate,
): ReadingNeeded | null {
  const { rule, history } = plan;
  const measured = new Set(record.measurements.map((m) => m.measure));
  const missing = measuresWanted(rule, plan.device, measured).find((m) => !measured.has(m));
  if (missing) return { why: 'never-measured', measure: missing, side: null, date: null };
  const measure = deciding?.measure ?? plan.limits[0]?.series.measure;
  if (!measure) return { why: 'never-measured', measure: rule.dimensions[0].measure, side: null, date: null };
  const own = record.measurements.filter((m) => m.measure === measure);
  const last = latest(own);
  const age = decimalAgeYears(record.child.birthDate, today);
  const about = { measure, side: deciding?.side ?? null };
  const slip = unansweredSlip(record, plan, measure, suggestions);
  if (slip) return slip;
  const judged = lastJudged(plan);
  const known = judged !== null && judged > last.date ? judged : last.date;
  const stopped = deciding && growthStopped(record, deciding);
  if (stopped?.proved) return null;
  // One reading shows no pace: it speaks for one interval.
  const lasts =
    new Set(own.map((m) => m.date)).size > 1 || judged ? staleAfterDays(rule, age) : nearCastDays(rule, age);
  if (daysBetween(known, today) > lasts) return { why: 'readings-too-old', ...about, date: last.date };
  if (judged === null && castUnread(record, plan, own))
    return { why: 'no-reading-near-cast', ...about, date: history.castDate };
  if (stopped) return { why: 'growth-stopped', ...about, date: last.date };
  return null;
}

const lastJudged = ({ judgements }: DevicePlan): IsoDate | null =>
  judgements.filter((j) => j.verdict !== null).at(-1)?.verdict?.date ?? null;

/** Does a limit count growth since the cast, and none of the measure's own readings is near that? */
function castUnread(
  { child }: ChildRecord,
  { rule, history, limits }: DevicePlan,
  own: readonly Measurement[],
): boolean {
  const castDay = dayNumber(history.castDate);
  const near = Math.min(...own.map((m) => Math.abs(dayNumber(m.date) - castDay)));
  const onGrowth = limits.some((l) => l.series.measure === own[0].measure && l.kind === 'growth');
  const ageAtCast = decimalAgeYears(child.birthDate, history.castDate);
  return onGrowth && near > nearCastDays(rule, ageAtCast);
}

const latest = (readings: readonly Measurement[]): Measurement =>
  readings.reduce((last, m) => (m.date >= last.date ? m : last));

/** A likely slip in a reading that this device's answer rests on: of what decides or cannot be done without, the newest or the one nearest the cast. */
function unansweredSlip(
  record: ChildRecord,
  plan: DevicePlan,
  deciding: MeasureId,
  suggestions: readonly DataSuggestion[],
): ReadingNeeded | null {
  const castDay = dayNumber(plan.history.castDate);
  // A breadth or a height that a flare answers does not hold the rest up.
  const used = new Set<MeasureId>([deciding, ...measuresWanted(plan.rule, plan.device)]);
  const matters = record.measurements
    .filter((m) => used.has(m.measure))
    .filter((m, _, all) => {
      const same = all.filter((x) => x.measure === m.measure && x.side === m.side);
      const distance = (x: Measurement) => Math.abs(dayNumber(x.date) - castDay);
      return m === latest(same) || same.every((x) => distance(x) >= distance(m));
    });
  for (const m of matters) {
    const found = suggestions.find((s) => isSlip(s) && s.measurementIds.includes(m.id));
    if (!found) continue;
    // Far off without a cause that is seen: growth may have sprung.
    const sprang = found.kind === 'digit-slip' && found.corrections.length === 0;
    return {
      why: sprang ? 'growth-sprang' : 'slip-unanswered',
      measure: m.measure,
      side: m.side,
      date: m.date,
      ...(sprang ? {} : { slip: found.kind }),
    };
  }
  return null;
}
