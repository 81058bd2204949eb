import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso } from '../../records/dates.js';
import { type DeviceForecast, reachedOn } from '../contract.js';
import { adjusting, capital, plainDate, plainSeries, plainSpan, statedMm, wholeMm } from '../words.js';
import type { DevicePlan } from './device-plan.js';

type Facts = Omit<DeviceForecast, 'explanation'>;

/** Why this outcome and what happens instead, in plain words; no name, no score, no diagnosis. */
export function explainForecast(
  facts: Facts,
  plan: DevicePlan,
  record: ChildRecord,
  staleDays: number,
): string {
  return [
    main(facts, plan, record, staleDays),
    travel(facts),
    renewal(facts, plan),
    course(facts, plan),
    pending(facts),
  ]
    .filter(Boolean)
    .join(' ');
}

function main(facts: Facts, plan: DevicePlan, record: ChildRecord, staleDays: number): string {
  const driver = facts.drivers[0]?.series ?? facts.room[0].series;
  const room = facts.room.find((r) => r.series.measure === driver.measure && r.series.side === driver.side)!;
  const what = capital(plainSeries(driver));
  const range = spread(facts);
  switch (facts.outcome) {
    case 'already-outgrown': {
      const judged = plan.history.judgedOutgrown;
      if (judged !== null)
        return `Judged outgrown on ${plainDate(judged.date)}: check the skin and plan the replacement now.`;
      const since = facts.p50 ? `, since about ${plainDate(facts.p50)}` : '';
      return `Probably outgrown already${since}: ${plainSeries(driver)} has grown ${wholeMm(room.grownMm)} since the cast and the device takes ${statedMm(room.allowanceMm)}. Check fit and skin now.`;
    }
    case 'full-grown': {
      const life = facts.usualLifeEnds;
      const wear = life ? ` Usual life runs from ${plainDate(life.from)} to ${plainDate(life.to)}.` : '';
      return `No measurable growth is expected in any length that limits it, so no growth date: review by wear and fit, at the latest every 12 months; girths still change with weight.${wear}`;
    }
    case 'too-few-measurements':
      return `Cannot forecast: the last measurement is ${plainSpan(staleDays)} old. From it alone the device may be outgrown ${range}; measure before relying on any date.`;
    case 'beyond-horizon':
      if (facts.readingNeeded?.why === 'never-measured')
        return `Cannot say how long it will fit: ${plainSeries({ measure: facts.readingNeeded.measure, side: 'none' })} has never been measured. Of what was measured ${plainSeries(driver)} would be first. Usual reviews go on.`;
      return `Less than 1 chance in 10 of being outgrown within ${plainSpan(plan.rule.horizonDays.value)}; ${plainSeries(driver)} would be first. Usual reviews go on.`;
    default: {
      const inferred = record.measurements.some((m) => m.measure === driver.measure)
        ? ''
        : ` It has never been measured here and is inferred from other measures.`;
      return `${what} sets the date: about ${wholeMm(Math.max(0, room.roomMm))} of ${statedMm(room.allowanceMm)} are left; outgrown ${range}.${inferred}`;
    }
  }
}

function spread(facts: Facts): string {
  const { p10, p50, p90, today } = facts;
  if (p10 === null) return 'only after the forecast ends';
  const from = p10 <= today ? 'now' : plainDate(p10);
  const to = p90 === null ? 'some day after the forecast ends' : plainDate(p90);
  return `between ${from} and ${to} (8 in 10)${p50 ? `, as likely as not by ${plainDate(p50)}` : ''}`;
}

/** What is to be adjusted now; when more of it is due the decision says, on its own day. */
function travel(facts: Facts): string {
  const due = facts.adjustments?.filter((a) => a.dueNow) ?? [];
  if (facts.outcome === 'already-outgrown' || due.length === 0) return '';
  return `Wanted now: ${due.map((a) => `${adjusting[a.kind]} for ${plainSeries(a.series)} (${wholeMm(a.extensionLeftMm)} left)`).join(', ')}. Each resets that dimension and no other.`;
}

/** Which part is wanted next while the rest goes on: the dimension with least room may be one that does not end the device. */
function renewal(facts: Facts, plan: DevicePlan): string {
  if (facts.outcome === 'already-outgrown') return '';
  const next = (facts.parts ?? [])
    .flatMap(({ part, days }) => ({ part, day: reachedOn(days, 0.5) }))
    .filter((p) => p.day !== null)
    .toSorted((a, b) => a.day!.localeCompare(b.day!))[0];
  const names = plan.rule.parts.find((p) => p.id === next?.part)?.names;
  if (!names) return '';
  const when = next.day! <= facts.today ? 'now' : `by ${plainDate(next.day!)}`;
  return `${names.en.clinical}, renewed alone: likely to be wanted ${when}.`;
}

/** A course of treatment with an end of its own: will the room last until then? */
function course(facts: Facts, plan: DevicePlan): string {
  const { courseDays } = plan.rule;
  if (courseDays === null || facts.p50 === null || facts.outcome !== 'forecast') return '';
  const end = addDaysIso(plan.history.fittedDate ?? plan.history.castDate, courseDays.value);
  if (end <= facts.today) return `The usual course ended about ${plainDate(end)}: review whether it goes on.`;
  return facts.p50 < end
    ? `The course of about ${plainSpan(courseDays.value)} would run to ${plainDate(end)}, so a second shell may be needed.`
    : `The course of about ${plainSpan(courseDays.value)} runs to about ${plainDate(end)}.`;
}

const pending = (facts: Facts) =>
  facts.replacementInProgress ? 'A replacement has been cast and is not delivered yet.' : '';
