import { daysBetween, type IsoDate } from '../measurements/dates.js';
import { monthEnd } from './calendar.js';
import type { RecallEntry, RecallLevelling, RecallList } from './contract.js';
import { type ClinicWeekInput, clinicCapacity } from './levelling/clinic-capacity.js';
import { combineRequests } from './levelling/combine-requests.js';
import { levellingSettings, type PlannedVisit } from './levelling/contract.js';
import { levelPlan } from './levelling/level-plan.js';
import { type PlanRequestContext, planRequests } from './levelling/plan-requests.js';
import { partsOf } from './levelling/week-costs.js';
import { type RecallSettingsInput, recallSettings } from './recall-settings.js';

/** Half a year: a visit that can wait leaves its place to one that cannot. */
const PLANNED_WEEKS = 26;
/** Weeks planned beyond the list's month, so that its last visits have somewhere to go. */
const WEEKS_AFTER_MONTH = 4;
/** So many 'one more slot' lines are worth reading. */
const RELIEF_SHOWN = 5;

export interface LevelRecallOptions extends Pick<PlanRequestContext, 'childOf' | 'turnaroundOf'> {
  readonly clinic: ClinicWeekInput;
  readonly settings?: RecallSettingsInput;
}

/**
 * The recall list with a week for every entry, and why that week, planned over all the list's children under the
 * clinic's casting slots; `levelling` tells where they do not suffice, who comes too late for it and what would help.
 * Where an entry's devices go at different times, it has the first of their weeks.
 */
export async function levelRecallList(
  list: RecallList,
  { clinic, childOf, turnaroundOf, settings = {} }: LevelRecallOptions,
): Promise<RecallList & { readonly levelling: RecallLevelling }> {
  const capacity = clinicCapacity(clinic, list.today, weeksToPlan(list));
  const wanted = planRequests(list, {
    childOf,
    turnaroundOf,
    capacity,
    settings: recallSettings.parse(settings),
  });
  const closed = closedWeeks(clinic, list.today, capacity.weeks.length);
  const possible = wanted.map((r) => ({ ...r, notInWeeks: closed }));
  const { requests, combinations } = combineRequests(possible, capacity, levellingSettings.parse({}));
  const plan = await levelPlan(requests, capacity);
  const visits = new Map(plan.visits.map((v) => [v.requestId, v]));
  const visitOf = new Map(
    requests.flatMap((r) => partsOf(r).map((part) => [part.id, visits.get(r.id)!] as const)),
  );
  const withWeek = (entry: RecallEntry): RecallEntry => {
    const visit = partIdsOf(entry)
      .flatMap((id) => visitOf.get(id) ?? [])
      .sort(byWeek)[0];
    if (!visit) return entry;
    const reason = [visit.why, togetherWith(entry, visit), visit.overtime ? OVERTIME_REASON : '']
      .filter((text) => text !== '')
      .join(' ');
    return { ...entry, ...(visit.week ? { plannedWeek: visit.week } : {}), weekReason: reason };
  };
  return {
    ...list,
    entries: list.entries.map(withWeek),
    open: list.open.map(withWeek),
    cannotForecast: list.cannotForecast.map(withWeek),
    notDue: list.notDue.map(withWeek),
    levelling: {
      weeks: plan.weeks.map(({ week, slots, used, overtime }) => ({ week, slots, used, overtime })),
      harmed: plan.harmed.map(({ childIds, week, latestSafe, text }) => ({
        childIds,
        week,
        latestSafe,
        text,
      })),
      relief: plan.relief.slice(0, RELIEF_SHOWN).map(({ week, text }) => ({ week, text })),
      visitsSaved: combinations.reduce((sum, c) => sum + c.visitsSaved, 0),
      gap: plan.gap,
    },
  };
}

const OVERTIME_REASON = 'There is no usual slot left that week: it needs one more.';

/** What else is done in the visit: it may be why a device goes before its own cast is worth it. */
function togetherWith(entry: RecallEntry, visit: PlannedVisit): string {
  if (visit.childIds.length > 1) return 'One visit with a brother or sister.';
  const others = visit.deviceIds.filter((d) => !entry.deviceIds.includes(d)).length;
  if (others > 0) return `One visit with ${others === 1 ? 'another device' : 'other devices'} of the child.`;
  return '';
}

/** Weeks without a working day from today on: not even a slot beyond the usual ones can be had then. */
function closedWeeks(clinic: ClinicWeekInput, today: IsoDate, weekCount: number): IsoDate[] {
  const slotADay = [{ id: 'clinic', slotsPerWeek: 5 }];
  const { weeks, sessions } = clinicCapacity({ ...clinic, clinicians: slotADay }, today, weekCount);
  const open = new Set(sessions.map((s) => s.week));
  return weeks.filter((_, week) => !open.has(week));
}

const weeksToPlan = ({ today, month }: RecallList): number =>
  Math.max(PLANNED_WEEKS, Math.ceil(daysBetween(today, monthEnd(month)) / 7) + WEEKS_AFTER_MONTH);

/** The requests that stand for an entry: a cast for each device, else the child's review. */
const partIdsOf = ({ action, childId, deviceIds }: RecallEntry): string[] =>
  action === 'cast' ? deviceIds.map((d) => `${childId}/${d}`) : [`${childId}/review`];

const LAST: IsoDate = '9999-01-01';
const byWeek = (a: PlannedVisit, b: PlannedVisit) => (a.week ?? LAST).localeCompare(b.week ?? LAST);
