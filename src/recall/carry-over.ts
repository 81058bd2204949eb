import { addDaysIso, type IsoDate } from '../records/dates.js';
import type { Action, PassedWeek, RecallEntry, WorkState } from './contract.js';
import { weekStart } from './decide/calendar.js';
import type { ClinicDays } from './level/clinic-week.js';

/** A child's entry in the list before, and how far people came with it. */
export interface EarlierVisit {
  readonly childId: string;
  readonly action: Action;
  readonly deviceIds: readonly string[];
  readonly plannedWeek: IsoDate | null;
  /** Who was to see the child; empty where the plan left it open. */
  readonly clinician: string;
  readonly passedWeeks: readonly PassedWeek[];
  readonly state: WorkState;
  /** Day the visit is booked for, where one was said; a booking without a day is for the planned week. */
  readonly appointment: IsoDate | null;
}

/** As kept with a list: the entry, and what people said of it. */
export const earlierVisit = (
  entry: Pick<
    RecallEntry,
    'childId' | 'action' | 'deviceIds' | 'plannedWeek' | 'plannedClinician' | 'passedWeeks'
  >,
  { state, appointment }: Pick<EarlierVisit, 'state' | 'appointment'>,
): EarlierVisit => ({
  childId: entry.childId,
  action: entry.action,
  deviceIds: entry.deviceIds,
  plannedWeek: entry.plannedWeek ?? null,
  clinician: entry.plannedClinician ?? '',
  passedWeeks: entry.passedWeeks ?? [],
  state,
  appointment,
});

/** What the next plan must respect of the one before. */
export interface CarriedOver {
  /** Week the child had; moving it costs, more where the family was told of it. */
  readonly previousWeek: IsoDate | null;
  readonly told: boolean;
  /** Week of an appointment that still stands. */
  readonly bookedWeek: IsoDate | null;
  /** Weeks that came to nothing, this last one included. */
  readonly passedWeeks: readonly PassedWeek[];
}

/** So long a week that came to nothing is remembered, days: one who is not brought twice must not look like a first call. */
const REMEMBERED_DAYS = 182;

/** What became of a visit that was planned, by the day of the new plan. */
export function carryOver(
  visit: EarlierVisit,
  today: IsoDate,
  clinic: Pick<ClinicDays, 'ofWeek' | 'isShut'>,
): CarriedOver {
  const thisWeek = weekStart(today);
  const week = weekOf(visit);
  const remembered = visit.passedWeeks.filter(
    (p) => p.week !== week && p.week > addDaysIso(today, -REMEMBERED_DAYS),
  );
  const free = { previousWeek: null, told: false, bookedWeek: null, passedWeeks: remembered };
  if (week === null || visit.state === 'done' || visit.state === 'moved-away') return free;
  const passed = (why: PassedWeek['why']) => ({ ...free, passedWeeks: [...remembered, { week, why }] });
  if (visit.state === 'declined' || visit.state === 'did-not-come') return passed(visit.state);
  const day = visit.state === 'booked' ? visit.appointment : null;
  if (visit.state === 'booked' && (day ? day < today : week < thisWeek)) return passed('nothing-recorded');
  if (week < thisWeek) return free;
  if (visit.state === 'to-call' || visit.state === 'left-message') return { ...free, previousWeek: week };
  const stands = { ...free, previousWeek: week, told: true };
  const days = day ? [day] : clinic.ofWeek(week);
  // The family was told of it. Another day or clinician of the same week will do where there is one.
  if (days.every((d) => clinic.isShut(d, visit.clinician)))
    return { ...passed('clinic-cancelled'), previousWeek: week, told: true };
  return visit.state === 'booked' ? { ...stands, bookedWeek: week } : stands;
}

/**
 * State of a child's entry in the new list. A call made for the same thing stands; an appointment stands whatever it
 * is for by now; a week that came to nothing means a new call. 'done' does not carry over: a new need is a new call.
 */
export function stateInNewList(visit: EarlierVisit, entry: RecallEntry): WorkState {
  const week = weekOf(visit);
  const passed = week !== null && entry.passedWeeks?.some((p) => p.week === week);
  if (visit.state === 'done' || visit.state === 'moved-away' || passed) return 'to-call';
  const same = visit.action === entry.action && entry.deviceIds.some((d) => visit.deviceIds.includes(d));
  const rang = visit.state === 'called' || visit.state === 'left-message';
  return rang && !same ? 'to-call' : visit.state;
}

const weekOf = ({ appointment, plannedWeek }: EarlierVisit): IsoDate | null =>
  appointment ? weekStart(appointment) : plannedWeek;
