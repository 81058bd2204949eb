import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import type { Capacity, LevellingSettings, PlanRequest } from './contract.js';

/** Is a week (null: after all of them) after the worth-it date of some part of the visit and late for none? */
export function insideWindow(
  request: PlanRequest,
  { weeks, lastDay }: Pick<Capacity, 'weeks' | 'lastDay'>,
  week: IsoDate | null,
): boolean {
  const monday = week === null ? dayNumber(weeks[0]) + 7 * weeks.length : dayNumber(week);
  const times = partsOf(request).map(timesOf);
  return (
    times.some((t) => week === null || !tooEarly(t, monday + lastDay)) &&
    times.every((t) => seenBy(t, monday, lastDay) <= t.latestSafe)
  );
}

/**
 * Cost of placing a request in each week, in weighted days; Infinity where it may not go; last entry: after all weeks.
 * Before worth-it is not possible: for a visit made of several before any cast of it, whose place in the workshop a review
 * would else wait for, or before all the rest; after latest safe is, at a price, because where there are too few slots
 * someone is late. Weeks follow each other without a break.
 */
export function weekCosts(
  request: PlanRequest,
  capacity: Capacity,
  settings: LevellingSettings,
): Float64Array {
  const n = capacity.weeks.length;
  const first = dayNumber(capacity.weeks[0]);
  const parts = partsOf(request).map(timesOf);
  const holiday = parts.some((t) => t.part.prefersHolidays);
  return Float64Array.from({ length: n + 1 }, (_, w) => {
    const monday = first + 7 * w;
    const early = (t: Times) => t.booked === null && tooEarly(t, monday + capacity.lastDay);
    const possible =
      w < n
        ? parts.every((t) => allowed(t, monday)) &&
          !parts.every(early) &&
          !parts.some((t) => t.part.action === 'cast' && early(t))
        : parts.every((t) => t.booked === null || t.booked < first || t.booked >= monday);
    if (!possible) return Number.POSITIVE_INFINITY;
    const own = parts.reduce((sum, t) => sum + partCost(t, w, monday, capacity.lastDay, settings), 0);
    return own + (w < n && holiday && !capacity.schoolHoliday[w] ? settings.holidayCost : 0);
  });
}

export const partsOf = (request: PlanRequest): readonly PlanRequest[] =>
  request.parts.length > 0 ? request.parts : [request];

/** A part's dates as day numbers. */
interface Times {
  readonly part: PlanRequest;
  readonly latestSafe: DayNumber;
  readonly worthIt: DayNumber;
  readonly booked: DayNumber | null;
  readonly previous: DayNumber | null;
  readonly notIn: readonly DayNumber[];
}

function timesOf(part: PlanRequest): Times {
  const day = (date: IsoDate | null) => (date === null ? null : dayNumber(date));
  const latestSafe = dayNumber(part.latestSafe);
  const worthIt = day(part.worthIt) ?? Number.NEGATIVE_INFINITY;
  return {
    part,
    latestSafe,
    // A window that ends before it begins (a funder's date after the latest safe one) opens at once.
    worthIt: worthIt <= latestSafe ? worthIt : Number.NEGATIVE_INFINITY,
    booked: day(part.bookedWeek),
    previous: day(part.previousWeek),
    notIn: part.notInWeeks.map(dayNumber),
  };
}

function partCost(
  t: Times,
  w: number,
  monday: DayNumber,
  lastDay: number,
  settings: LevellingSettings,
): number {
  const weight = t.part.insensateSkin ? settings.insensateWeight : 1;
  const late = Math.max(0, Math.ceil((seenBy(t, monday, lastDay) - t.latestSafe) / 7));
  return (
    weight *
      (t.part.outgrownDays[w] +
        (t.part.routine ? settings.lateReviewWeekCost : settings.lateWeekCost) * late) +
    settings.wastedDayCost * t.part.wastedDays[w] +
    (t.previous !== null && t.previous !== monday ? moveCost(t.part, settings) : 0)
  );
}

const moveCost = (part: PlanRequest, settings: LevellingSettings) =>
  part.previousWeekTold ? settings.moveCost : settings.moveUntoldCost;

function allowed(t: Times, monday: DayNumber): boolean {
  if (t.booked !== null) return t.booked === monday;
  return !t.notIn.includes(monday);
}

/** What must not be late is counted as seen on the week's last day; the usual review is in time in the week it is due. */
const seenBy = ({ part }: Times, monday: DayNumber, lastDay: number): DayNumber =>
  monday + (part.routine ? 0 : lastDay);

const tooEarly = (t: Times, last: DayNumber) => last < t.worthIt;
