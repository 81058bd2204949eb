import { daysBetween, type IsoDate } from '../../records/dates.js';
import { type CarriedOver, carryOver, type EarlierVisit } from '../carry-over.js';
import type { RecallEntry, RecallLevelling, RecallList } from '../contract.js';
import { type RecallSettingsInput, recallSettings } from '../decide/recall-settings.js';
import { byHarm } from '../decide/working-order.js';
import { clinicCapacity, severalClinicians } from './clinic-capacity.js';
import { type ClinicDays, type ClinicWeekInput, clinicDays } from './clinic-week.js';
import { combineRequests } from './combine-requests.js';
import { levellingSettings, type PlannedVisit } from './contract.js';
import { levelPlan } from './level-plan.js';
import { type PlanRequestContext, planRequests, requestIdsOf } from './plan-requests.js';
import { partsOf } from './week-costs.js';
import { weekReason } from './week-reason.js';

/** Half a year: a visit that can wait leaves its place to one that cannot. */
const PLANNED_WEEKS = 26;
/** Weeks planned beyond the list's month, so that its last visits have somewhere to go. */
const WEEKS_AFTER_MONTH = 4;
/** So many 'one more slot' lines are worth reading. */
const RELIEF_SHOWN = 5;

export interface LevelRecallOptions extends Pick<PlanRequestContext, 'childOf' | 'turnaroundOf'> {
  readonly clinic: ClinicWeekInput;
  readonly settings?: RecallSettingsInput;
  /** The list before and what came of it: the new plan moves as few as it can. */
  readonly earlier?: readonly EarlierVisit[];
  /** Hears why the weeks could not be planned. */
  readonly failed?: (error: unknown) => void;
}

/** What stands of the list before, by child. */
type Before = ReadonlyMap<string, CarriedOver>;

export type LevelledList = RecallList & { readonly levelling: RecallLevelling };

const NOT_LEVELLED =
  'The weeks could not be planned this time. Everybody is on the list with the latest safe day and without a week: plan by that day. Visits that are booked hold.';

/**
 * The recall list with a week for every entry, and why that week. Where the planning fails, whatever the reason, the
 * list stands without weeks and says so: who is wanted and by when does not hang on it.
 */
export async function levelRecallList(asked: RecallList, options: LevelRecallOptions): Promise<LevelledList> {
  let list = asked;
  try {
    const days = clinicDays(options.clinic);
    const before: Before = new Map(options.earlier?.map((v) => [v.childId, carryOver(v, asked.today, days)]));
    list = withBooked(asked, before);
    return await levelled(list, before, days, options);
  } catch (error) {
    options.failed?.(error);
    const nothing = { weeks: [], harmed: [], relief: [], visitsSaved: 0, gap: 0 };
    return { ...list, levelling: { ...nothing, notLevelled: NOT_LEVELLED } };
  }
}

/**
 * Planned over all the list's children under the clinic's casting slots; `levelling` tells where they do not suffice,
 * who comes too late for it and what would help. Where an entry's devices go at different times, it has the first of
 * their weeks.
 */
async function levelled(
  list: RecallList,
  before: Before,
  days: ClinicDays,
  { clinic, childOf, turnaroundOf, settings = {} }: LevelRecallOptions,
): Promise<LevelledList> {
  const capacity = clinicCapacity(clinic, list.today, weeksToPlan(list));
  const wanted = planRequests(list, {
    childOf,
    turnaroundOf,
    earlierOf: (id) => before.get(id),
    capacity,
    settings: recallSettings.parse(settings),
  });
  // Not even a slot beyond the usual ones can be had in a week without a working day from today on.
  const closed = capacity.weeks.filter((week) =>
    days.ofWeek(week).every((day) => day <= list.today || days.isShut(day, '')),
  );
  const possible = wanted.map((r) => ({ ...r, notInWeeks: [...r.notInWeeks, ...closed] }));
  const { requests, visitsSaved } = combineRequests(possible, capacity, levellingSettings.parse({}));
  const several = severalClinicians(capacity);
  const plan = await levelPlan(requests, capacity);
  const visits = new Map(plan.visits.map((v) => [v.requestId, v]));
  const visitOf = new Map(
    requests.flatMap((r) => partsOf(r).map((part) => [part.id, visits.get(r.id)!] as const)),
  );
  const harm = new Map(plan.harmed.map((h) => [h.requestId, h.text]));
  const withWeek = (entry: RecallEntry): RecallEntry => {
    const visit = requestIdsOf(entry)
      .flatMap((id) => visitOf.get(id) ?? [])
      .sort(byWeek)[0];
    const planned = asPlanned(entry, visit, before.get(entry.childId), several);
    return visit && harm.has(visit.requestId) ? { ...planned, tooLate: harm.get(visit.requestId) } : planned;
  };
  return {
    ...list,
    entries: list.entries.map(withWeek),
    notDue: list.notDue.map(withWeek),
    levelling: {
      weeks: plan.weeks.map(({ week, slots, used, overtime, workshop }) => ({
        week,
        slots,
        used,
        overtime,
        workshop: workshop
          .filter((limit) => limit.over > 0)
          .map(({ families, limit, used: jobs }) => ({ families, limit, jobs })),
      })),
      harmed: plan.harmed.map(({ childIds, week, latestSafe, text }) => ({
        childIds,
        week,
        castBy: latestSafe,
        text,
      })),
      relief: plan.relief.slice(0, RELIEF_SHOWN).map(({ week, text }) => ({ week, text })),
      visitsSaved,
      gap: plan.gap,
    },
  };
}

/** A family that comes on a day it was told stays on the list, whatever is wanted of it by now. */
function withBooked(list: RecallList, before: Before): RecallList {
  const booked = list.notDue.filter(({ childId }) => before.get(childId)?.bookedWeek != null);
  return {
    ...list,
    entries: [...list.entries, ...booked].sort(byHarm),
    notDue: list.notDue.filter((entry) => !booked.includes(entry)),
  };
}

/** An entry with its week, why it has it, and the weeks it had before. */
function asPlanned(
  entry: RecallEntry,
  visit: PlannedVisit | undefined,
  was: CarriedOver | undefined,
  several: boolean,
): RecallEntry {
  const passedWeeks = was?.passedWeeks ?? [];
  const remembered = passedWeeks.length > 0 ? { passedWeeks } : {};
  if (!visit) return { ...entry, ...remembered, ...(was?.bookedWeek ? { plannedWeek: was.bookedWeek } : {}) };
  const movedFrom = was?.previousWeek && was.previousWeek !== visit.week ? was.previousWeek : null;
  return {
    ...entry,
    ...remembered,
    ...(visit.week ? { plannedWeek: visit.week } : {}),
    ...(visit.clinicianId && several ? { plannedClinician: visit.clinicianId } : {}),
    ...(visit.weekday ? { plannedWeekday: visit.weekday } : {}),
    weekReason: weekReason(entry, visit, passedWeeks, movedFrom),
  };
}

const weeksToPlan = ({ today, until }: RecallList): number =>
  Math.max(PLANNED_WEEKS, Math.ceil(daysBetween(today, until) / 7) + WEEKS_AFTER_MONTH);

const LAST: IsoDate = '9999-01-01';
const byWeek = (a: PlannedVisit, b: PlannedVisit) => (a.week ?? LAST).localeCompare(b.week ?? LAST);
