import { weekdayOf } from '../recall/level/clinic-week.js';
import { decimalAgeYears } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import { DAYS_A_YEAR, type DayNumber, dayNumber, type IsoDate, isoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import {
  type MeasureId,
  measures,
  type Series,
  type Side,
  seriesOf,
  technicalErrorAt,
} from '../records/measure.js';
import type { Child, Measurement } from '../records/records.js';
import { reviewIntervalDays } from '../rules/by-age.js';
import type { FitRules } from '../rules/fit-rule.js';
import { ruleOf } from '../rules/rule-of.js';
import type { Chance } from './chance.js';
import { DeviceSlot, STEADY_DAYS } from './device-slot.js';
import { inventMarkers } from './invent-markers.js';
import { inventSkinChecks } from './invent-skin-checks.js';
import type { Pattern, Worn } from './scenario.js';
import { readingOf, type TrueGrowth, trueGrowth } from './true-growth.js';

/** Who measures, each with a hand of their own: bias in SD of the technical error. */
const OBSERVERS = [
  { name: 'KL', bias: 0.2 },
  { name: 'MP', bias: -0.15 },
  { name: 'RS', bias: 0 },
  { name: 'student', bias: 0.4 },
] as const;
/** What is not measured with a tape. */
const METHODS: Partial<Record<MeasureId, string>> = { foot_length: 'gauge', weight: 'scale' };
const NOT_BROUGHT = 0.12;
const LOST_TO_FOLLOW_UP = 0.01;
/** Nobody is called again sooner. */
const SOONEST_DAYS = 7;
/** Not seen again for at least this long. */
const LOST_DAYS = 580;

/** A child's whole invented history up to today: visits, some missed, readings with their error, devices, markers. */
export function inventRecord(
  child: Child,
  pattern: Pattern,
  rules: FitRules,
  today: IsoDate,
  c: Chance,
): ChildRecord {
  const affected: Side[] =
    child.affectedSide === 'left' || child.affectedSide === 'right' ? [child.affectedSide] : [];
  const growth = trueGrowth(child, affected, c);
  const counts = { D: 0, E: 0, J: 0, M: 0, K: 0, S: 0 };
  const nextId = (kind: keyof typeof counts) => `${child.id}-${kind}${++counts[kind]}`;
  const now = dayNumber(today);
  const slots = c
    .oneOf(pattern.devices)
    .map(
      ({ family, side }) =>
        new DeviceSlot(ruleOf(rules, family), sideOf(side, child), child, growth, now, nextId, c),
    );
  const visits: DayNumber[] = [];
  const measurements: Measurement[] = [];
  const visit = (day: DayNumber): void => {
    measurements.push(...readingsAt(child, slots, growth, day, visits.length === 0, nextId, c));
    visits.push(day);
    const next = day + usualInterval(slots, child, day);
    const cast = slots.filter((slot) => slot.visit(day, next));
    if (cast.length > 0) for (const slot of slots) if (!cast.includes(slot)) slot.joinCast(day);
  };
  const { first, last } = spanOf(child, slots, now, c);
  for (let day = first; day <= last; ) {
    const brought = visits.length === 0 || !c.happens(NOT_BROUGHT);
    const on = weekday(day);
    if (brought && on >= dayNumber(child.birthDate) && on > (visits.at(-1) ?? 0)) visit(on);
    const usual = usualInterval(slots, child, day);
    if (day < now - STEADY_DAYS) day += Math.max(SOONEST_DAYS, Math.round(usual * c.between(0.8, 1.4)));
    // Since then a cast that falls due is called for, and who was not brought is rung and comes within the month.
    else if (brought) {
      const due = Math.min(...slots.map((slot) => slot.castDue(day))) - day;
      day += Math.max(SOONEST_DAYS, Math.min(due, Math.round(usual * c.between(0.75, 1.05))));
    } else day += c.whole(10, 28);
  }
  const markers = inventMarkers(child, growth, visits, nextId, c);
  const devices = slots.flatMap((slot) => slot.devices);
  return {
    child,
    measurements,
    markers,
    devices,
    events: slots.flatMap((slot) => slot.events),
    jobs: slots.flatMap((slot) => slot.jobs),
    skinChecks: inventSkinChecks(devices, visits, nextId, c),
  };
}

function sideOf(side: Worn['side'], child: Child): Device['side'] {
  const affected = child.affectedSide === 'right' ? 'right' : 'left';
  if (side === 'affected') return affected;
  if (side === 'other') return affected === 'left' ? 'right' : 'left';
  return side;
}

/** The first and last day on which the child may have been seen; a few are lost for long. */
function spanOf(
  child: Child,
  slots: readonly DeviceSlot[],
  now: DayNumber,
  c: Chance,
): { first: DayNumber; last: DayNumber } {
  const birth = dayNumber(child.birthDate);
  const age = (now - birth) / DAYS_A_YEAR;
  const head = slots.some(({ rule }) => rule.region === 'head');
  const years = head ? c.between(0.04, Math.min(0.3, age - 0.25)) : c.between(0.25, 4.5);
  const hip = slots.some(({ rule }) => rule.id === 'hip-abduction-orthosis');
  const small = head ? 0.2 : 1.1;
  const infant = hip ? 0.15 : small;
  const first = Math.max(birth + Math.round(infant * DAYS_A_YEAR), now - Math.round(years * DAYS_A_YEAR));
  const last = c.happens(LOST_TO_FOLLOW_UP) && !head ? now - LOST_DAYS : now;
  return { first: Math.min(first, last), last };
}

/** Days to the next review that the strictest of the families asks for. */
function usualInterval(slots: readonly DeviceSlot[], child: Child, day: DayNumber): number {
  const age = decimalAgeYears(child.birthDate, isoDate(day));
  return Math.min(...slots.map(({ rule }) => reviewIntervalDays(rule, age, child.insensateSkin)));
}

/** The Friday before a weekend day. */
const weekday = (day: DayNumber): DayNumber => day - Math.max(0, weekdayOf(isoDate(day)) - FRIDAY);
const FRIDAY = 5;

function readingsAt(
  child: Child,
  slots: readonly DeviceSlot[],
  growth: TrueGrowth,
  day: DayNumber,
  first: boolean,
  nextId: (kind: 'M') => string,
  c: Chance,
): Measurement[] {
  const observer = c.oneOf(OBSERVERS);
  const inCm = observer.name === 'MP';
  const age = decimalAgeYears(child.birthDate, day);
  return seriesToMeasure(child, slots, age, first, c).map(({ measure, side }): Measurement => {
    const error = technicalErrorAt(measure, age);
    const value = readingOf(measure, growth.size(measure, side, day) + error * (c.normal() + observer.bias));
    return {
      id: nextId('M'),
      childId: child.id,
      measure,
      side,
      value,
      date: isoDate(day),
      method: METHODS[measure] ?? 'tape',
      observer: observer.name,
      technicalError: null,
      entered: inCm && measures[measure].unit === 'mm' ? `${value / 10} cm` : '',
      extra: {},
    };
  });
}

// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: what a clinic measures of a child, device by device
function seriesToMeasure(
  child: Child,
  slots: readonly DeviceSlot[],
  age: number,
  first: boolean,
  c: Chance,
): Series[] {
  const wanted = new Map<string, Series>();
  const add = (measure: MeasureId, side: Side) => wanted.set(`${measure}/${side}`, { measure, side });
  for (const { rule, side } of slots) {
    for (const { measure, essential } of rule.dimensions) {
      if (!first && !c.happens(essential ? 0.93 : 0.5)) continue;
      for (const read of seriesOf(measure, side)) add(measure, read.side);
    }
  }
  if (slots.some(({ rule }) => rule.sides === 'one') && c.happens(0.7)) {
    add('foot_length', 'left');
    add('foot_length', 'right');
  }
  if (slots.some(({ rule }) => rule.region === 'head')) {
    add('head_circumference', 'none');
    add('head_diagonal', 'left');
    add('head_diagonal', 'right');
  } else if (c.happens(child.walks ? 0.85 : 0.5) || first) add('stature', 'none');
  if (age < 18 && c.happens(0.4)) add('weight', 'none');
  return [...wanted.values()];
}
