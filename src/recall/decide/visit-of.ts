import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { actionIds, type DeviceDecision, type RecallEntry } from '../contract.js';

const order = (d: DeviceDecision) => actionIds.indexOf(d.action);
const earliest = (dates: readonly (IsoDate | null)[]): IsoDate | null =>
  dates.flatMap((d) => d ?? []).sort()[0] ?? null;

/** Does it want a visit by that day? */
export const isWanted = (d: DeviceDecision, until: IsoDate): boolean =>
  d.action !== 'none' && d.dueBy !== null && d.dueBy <= until;

/** One visit for a child's devices: what the first of their actions is, and the earliest of their dates. */
export function visitOf(
  wanted: readonly DeviceDecision[],
  others: readonly DeviceDecision[],
  child: Pick<RecallEntry, 'childId' | 'siblingGroup' | 'lastSeen'>,
  today: IsoDate,
): RecallEntry {
  const first = wanted.toSorted((a, b) => order(a) - order(b) || b.harmPerWeek - a.harmPerWeek)[0];
  const dueBy = earliest(wanted.map((d) => d.dueBy));
  return {
    ...child,
    action: first.action,
    reason: first.reason,
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

/** Day by which a second device's own cast joins a visit to cast the first; null where the visit is for something else. */
export function castsJoinUntil(wanted: readonly DeviceDecision[], withinDays: number): IsoDate | null {
  const casts = wanted.filter((d) => d.action === 'cast' || d.action === 'check');
  const first = earliest(casts.map((d) => d.castBy));
  return first === null ? null : addDaysIso(first, withinDays);
}
