import type { Capacity, CastSession, LevellingSettings, PlanRequest } from './contract.js';
import { weekCosts } from './week-costs.js';

/** The levelling problem as numbers, requests ordered by id so that the order of input does not matter. */
export interface CompactProblem {
  readonly requests: readonly PlanRequest[];
  readonly weeks: number;
  /** costs[i][w], w = 0..weeks (last: after all weeks); Infinity where not possible. */
  readonly costs: readonly Float64Array[];
  /** Index of the week in the plan before; -1: none, or none of these. */
  readonly previousWeek: readonly number[];
  readonly slots: readonly number[];
  /** Requests of one type may use the same sessions. */
  readonly type: readonly number[];
  /** sessionsOfType[t] = indices of the sessions it may use. */
  readonly sessionsOfType: readonly (readonly number[])[];
  readonly sessionWeek: readonly number[];
  readonly sessionSlots: readonly number[];
  /** jobs[i] = workshop limit index and count of jobs counting against it. */
  readonly jobs: readonly (readonly { readonly limit: number; readonly count: number }[])[];
  /** jobLimits[g][w]. */
  readonly jobLimits: readonly (readonly number[])[];
  readonly overtimeSlotCost: number;
  readonly overtimeJobCost: number;
}

export function compactProblem(
  requests: readonly PlanRequest[],
  capacity: Capacity,
  settings: LevellingSettings,
): CompactProblem {
  const ordered = [...requests].sort((a, b) => (a.id < b.id ? -1 : 1));
  const typeIndex = new Map<string, number>();
  const sessionsOfType: number[][] = [];
  const type = ordered.map((r) => {
    const key = `${[...r.clinicianIds].sort()}|${[...r.transportDays].sort()}`;
    let t = typeIndex.get(key);
    if (t === undefined) {
      t = sessionsOfType.push(capacity.sessions.flatMap((s, i) => (fits(r, s) ? [i] : []))) - 1;
      typeIndex.set(key, t);
    }
    return t;
  });
  return {
    requests: ordered,
    weeks: capacity.weeks.length,
    costs: ordered.map((r) => weekCosts(r, capacity, settings)),
    previousWeek: ordered.map((r) => (r.previousWeek ? capacity.weeks.indexOf(r.previousWeek) : -1)),
    slots: ordered.map((r) => r.slots),
    type,
    sessionsOfType,
    sessionWeek: capacity.sessions.map((s) => s.week),
    sessionSlots: capacity.sessions.map((s) => s.slots),
    jobs: ordered.map((r) =>
      capacity.workshop.flatMap((limit, g) => {
        const count = r.jobs
          .filter((j) => limit.families.length === 0 || limit.families.includes(j.family))
          .reduce((sum, j) => sum + j.count, 0);
        return count > 0 ? [{ limit: g, count }] : [];
      }),
    ),
    jobLimits: capacity.workshop.map((l) => l.jobsByWeek),
    overtimeSlotCost: settings.overtimeSlotCost,
    overtimeJobCost: settings.overtimeJobCost,
  };
}

/** A session without a weekday may fall on any day, so it serves every transport day. */
function fits(r: PlanRequest, session: CastSession): boolean {
  if (r.clinicianIds.length > 0 && !r.clinicianIds.includes(session.clinicianId)) return false;
  if (r.transportDays.length === 0 || session.weekday === null) return true;
  return r.transportDays.includes(session.weekday);
}
