import { addDaysIso, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Child } from '../../records/records.js';
import type { CarriedOver } from '../carry-over.js';
import type { DeviceDecision, RecallEntry, RecallList, TurnaroundEstimate } from '../contract.js';
import { isBeingMade } from '../contract.js';
import type { RecallSettings } from '../decide/recall-settings.js';
import { castCosts } from './cast-costs.js';
import type { Capacity, PlanRequest } from './contract.js';

/** A cast is taken to happen on the Wednesday of its week when costs are counted. */
const MIDWEEK = 2;
/** A review may come this many days before it is due (common practice, no source). */
const REVIEW_WINDOW_DAYS = 28;
/** A cast this many days before it is due is no waste worth speaking of (common practice, no source). */
const CAST_WINDOW_DAYS = 28;

export interface PlanRequestContext {
  /** The child's own record: transport days and wishes. */
  readonly childOf: (childId: string) => Child | undefined;
  readonly turnaroundOf: (family: string) => TurnaroundEstimate;
  /** What stands of the plan before. */
  readonly earlierOf?: (childId: string) => CarriedOver | undefined;
  readonly capacity: Capacity;
  readonly settings: RecallSettings;
}

/** Every visit that the recall list asks for inside the planned weeks: a request for each device, and for each review. */
export function planRequests(list: RecallList, context: PlanRequestContext): PlanRequest[] {
  // Who must be seen now is seen today or tomorrow, outside the plan of the weeks.
  const entries = [...list.entries, ...list.notDue].filter((e) => e.action !== 'see-now');
  const notDue = new Set(list.notDue);
  return entries.flatMap((entry) => {
    const devices = [...entry.devices, ...entry.otherDevices];
    const casts = takenAlong(
      devices.flatMap((d) => castRequest(entry, d, context) ?? []),
      context.settings.combineWithinDays,
    );
    const review = reviewRequest(entry, devices, list.today, context);
    const requests = review ? [...casts, review] : casts;
    const earlier = context.earlierOf?.(entry.childId);
    if (!earlier) return requests;
    // A week that came to nothing is gone for all the child needs; the week it had, only for what it was called for.
    const called = notDue.has(entry) ? [] : requestIdsOf(entry);
    return requests.map((r) => ({
      ...r,
      // A week the clinic cancelled may have other days; shut ones are ruled out for everybody.
      notInWeeks: earlier.passedWeeks.flatMap((p) => (p.why === 'clinic-cancelled' ? [] : p.week)),
      ...(called.includes(r.id)
        ? {
            previousWeek: earlier.previousWeek,
            previousWeekTold: earlier.told,
            bookedWeek: earlier.bookedWeek,
          }
        : {}),
    }));
  });
}

/** A look that is due before the day to cast by, or without one, is a visit like a review: of the wear, of what surgery left. */
const isCast = ({ action, castBy, dueBy }: DeviceDecision): boolean =>
  castBy !== null && (action === 'cast' || (action === 'check' && (dueBy === null || dueBy >= castBy)));

/** The requests that stand for an entry: a cast for each of its devices that may need one, else the child's review. */
export const requestIdsOf = ({ childId, devices }: RecallEntry): string[] => {
  const casts = devices.filter(isCast).map((d) => castId(childId, d.deviceId));
  return casts.length > 0 ? casts : [reviewId(childId)];
};
const castId = (childId: string, deviceId: string) => `${childId}/${deviceId}`;
const reviewId = (childId: string) => `${childId}/review`;

/** The day a visit of each week is counted on, and of the week after all of them. */
const midweeksOf = (weeks: readonly IsoDate[]): IsoDate[] =>
  [...weeks, addDaysIso(weeks[weeks.length - 1], 7)].map((w) => addDaysIso(w, MIDWEEK));

function castRequest(
  entry: RecallEntry,
  device: DeviceDecision,
  context: PlanRequestContext,
): (PlanRequest & { worthIt: IsoDate }) | null {
  const { castBy, dueBy } = device;
  // A cast that is wanted sooner than its date; a look that is early enough at the review after it.
  const own = castBy && dueBy && (device.action === 'cast' ? dueBy < castBy : dueBy > castBy);
  const latestSafe = own ? dueBy : castBy;
  const { weeks } = context.capacity;
  if (isBeingMade(device.reason.code)) return null;
  if (latestSafe === null || latestSafe > addDaysIso(weeks[weeks.length - 1], 7)) return null;
  const costs = castCosts(
    device,
    context.turnaroundOf(device.family),
    midweeksOf(weeks),
    context.settings.fitWaitDays,
  );
  return {
    ...common(entry, context),
    ...costs,
    id: castId(entry.childId, device.deviceId),
    deviceIds: [device.deviceId],
    action: 'cast',
    jobs: [{ family: device.family, count: 1 }],
    worthIt: addDaysIso(latestSafe, -CAST_WINDOW_DAYS),
    latestSafe,
  };
}

/** A cast is worth it from when another of the child's is that it may come along with. */
const takenAlong = (casts: readonly (PlanRequest & { worthIt: IsoDate })[], withinDays: number) =>
  casts.map((r) => {
    const near = casts.filter((other) => other.latestSafe >= addDaysIso(r.latestSafe, -withinDays));
    return { ...r, worthIt: near.map((other) => other.worthIt).sort()[0] };
  });

/** Whatever else the child is wanted for, and the usual review. */
function reviewRequest(
  entry: RecallEntry,
  devices: readonly DeviceDecision[],
  today: IsoDate,
  context: PlanRequestContext,
): PlanRequest | null {
  const { weeks } = context.capacity;
  const due = [
    ...devices.filter((d) => !isCast(d) && d.action !== 'none').map((d) => d.dueBy),
    entry.reviewBy,
  ]
    .flatMap((d) => d ?? [])
    .sort()[0];
  if (due === undefined || due > addDaysIso(weeks[weeks.length - 1], 7)) return null;
  const midweeks = midweeksOf(weeks);
  const aDay = Math.max(0, ...devices.map(harmOfADay));
  return {
    ...common(entry, context),
    id: reviewId(entry.childId),
    deviceIds: [],
    action: 'review',
    routine: devices.every((d) => d.action === 'review' || d.action === 'none' || isCast(d)),
    jobs: [],
    worthIt: addDaysIso(due, -REVIEW_WINDOW_DAYS),
    latestSafe: due,
    outgrownDays: midweeks.map((day) => aDay * Math.max(0, daysBetween(today, day))),
    // Looked at sooner than it must be, the child comes more often.
    wastedDays: midweeks.map((day) => Math.max(0, daysBetween(day, due))),
  };
}

/** What a day of waiting costs where no cast is asked for: the child goes without, or in a device that may be too small. */
function harmOfADay(device: DeviceDecision): number {
  const waits = ['repair', 'measure', 'cast', 'check'].includes(device.action) && !isCast(device);
  return waits ? device.harmPerWeek / 7 : 0;
}

function common(entry: RecallEntry, context: PlanRequestContext) {
  const child = context.childOf(entry.childId);
  const own = child?.clinician ?? '';
  const known = context.capacity.sessions.some((s) => s.clinicianId === own);
  return {
    childIds: [entry.childId],
    slots: 1,
    insensateSkin: entry.alerts.includes('skin-cannot-warn'),
    // A name the clinic's capacity does not have holds nobody up.
    clinicianIds: known ? [own] : [],
    transportDays: child?.transportDays ?? [],
    prefersHolidays: child?.prefersHolidays ?? false,
    togetherKeys: [`child ${entry.childId}`, ...(entry.siblingGroup ? [`family ${entry.siblingGroup}`] : [])],
    bookedWeek: null,
    previousWeek: null,
    previousWeekTold: false,
    notInWeeks: [],
    parts: [],
  };
}
