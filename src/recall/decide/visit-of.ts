import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { actionIds, type DeviceDecision, type RecallEntry } from '../contract.js';

const order = (d: DeviceDecision) => actionIds.indexOf(d.action);
const earliest = (dates: readonly (IsoDate | null)[]): IsoDate | null =>
  dates.flatMap((d) => d ?? []).sort()[0] ?? null;

/** Does it want a visit by that day? */
export const isWanted = (d: DeviceDecision, until: IsoDate): boolean =>
  d.action !== 'none' && d.dueBy !== null && d.dueBy <= until;

/** One visit for a child's devices: what the first of the leading ones' actions is, and the earliest of all dates. */
export function visitOf(
  wanted: readonly DeviceDecision[],
  others: readonly DeviceDecision[],
  child: Pick<RecallEntry, 'childId' | 'siblingGroup' | 'lastSeen'>,
  today: IsoDate,
  leading: readonly DeviceDecision[] = wanted,
): RecallEntry {
  const first = leading.toSorted((a, b) => order(a) - order(b) || b.harmPerWeek - a.harmPerWeek)[0];
  const dueBy = earliest(wanted.map((d) => d.dueBy));
  return {
    ...child,
    action: first.action,
    reason: reasonFor(first, wanted),
    dueBy,
    castBy: earliest(wanted.map((d) => d.castBy)),
    tooLateSince: earliest(wanted.map((d) => d.tooLateSince)),
    beyondUseSince: earliest(wanted.map((d) => d.beyondUseSince)),
    daysBeyondUse: Math.max(...wanted.map((d) => d.daysBeyondUse)),
    reviewBy: earliest(wanted.map((d) => d.reviewBy)) ?? today,
    harmPerWeek: Math.max(...wanted.map((d) => d.harmPerWeek)),
    alerts: first.alerts,
    late: first.action !== 'none' && dueBy !== null && dueBy < today,
    deviceIds: wanted.map((d) => d.deviceId),
    devices: wanted,
    otherDevices: others,
  };
}

/** Days that a reason names and that hold for all devices it is said of when the earliest is said. */
const SHARED_DAYS = ['castBy', 'by', 'since', 'date'] as const;

/** The first device's reason with the days of all devices that have the same one: 'both should have been begun by ...'. */
function reasonFor(first: DeviceDecision, wanted: readonly DeviceDecision[]): DeviceDecision['reason'] {
  const alike = wanted.filter((d) => isSaidTogether(d, first)).map((d) => d.reason.numbers);
  const days = SHARED_DAYS.flatMap((name) => {
    const day = earliest(
      alike.map((numbers) => (numbers[name] === undefined ? null : String(numbers[name]))),
    );
    return day === null ? [] : [[name, day] as const];
  });
  return { ...first.reason, numbers: { ...first.reason.numbers, ...Object.fromEntries(days) } };
}

/** Are two devices of a visit wanted for the same, so that one sentence is true of both? */
export const isSaidTogether = (
  a: Pick<DeviceDecision, 'action' | 'reason'>,
  b: Pick<DeviceDecision, 'action' | 'reason'>,
): boolean => a.action === b.action && a.reason.code === b.reason.code;

/** Day by which a second device's own cast joins a visit to cast the first; null where the visit is for something else. */
export function castsJoinUntil(
  wanted: readonly DeviceDecision[],
  until: IsoDate,
  withinDays: number,
): IsoDate | null {
  // A look at a mark or at wear is no cast that another could come along with.
  const isDue = ({ castBy }: DeviceDecision) => castBy !== null && castBy <= until;
  const casts = wanted.filter((d) => d.action === 'cast' || (d.action === 'check' && isDue(d)));
  const first = earliest(casts.map((d) => d.castBy));
  return first === null ? null : addDaysIso(first, withinDays);
}
