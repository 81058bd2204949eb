import { compactProblem } from './compact-problem.js';
import {
  type Capacity,
  type LevellingSettingsInput,
  levellingSettings,
  type Plan,
  type PlannedVisit,
  type PlanRequest,
  type WeekLoad,
} from './contract.js';
import { explainWeek, harmedVisits, reliefOf } from './explain-plan.js';
import { placeInSessions } from './place-in-sessions.js';
import { solveLevelling } from './solve-levelling.js';
import { insideWindow } from './week-costs.js';

/**
 * Which week each visit goes in: least weighted days outgrown, casts wasted by being early, and moves, within casting
 * slots and workshop jobs. The same requests and capacity give the same plan, in whatever order they come.
 */
export async function levelPlan(
  requests: readonly PlanRequest[],
  capacity: Capacity,
  settingsInput: LevellingSettingsInput = {},
): Promise<Plan> {
  const settings = levellingSettings.parse(settingsInput);
  const p = compactProblem(requests, capacity, settings);
  const solved = await solveLevelling(p, settings.mipGap);
  const places = placeInSessions(p, solved.week);
  const visits = p.requests.map((r, i): PlannedVisit => {
    const w = solved.week[i];
    const week = w < p.weeks ? capacity.weeks[w] : null;
    const { session, overtime } = places[i];
    return {
      requestId: r.id,
      childIds: r.childIds,
      deviceIds: r.deviceIds,
      action: r.action,
      week,
      clinicianId: session === null ? null : capacity.sessions[session].clinicianId,
      weekday: session === null ? null : capacity.sessions[session].weekday,
      overtime: overtime > 0,
      insideWindow: insideWindow(r, capacity, week),
      cost: p.costs[i][w],
      why: explainWeek(p, capacity, solved.prices, i, w),
    };
  });
  const weeks = capacity.weeks.map((week, w): WeekLoad => {
    const here = p.requests.flatMap((_, i) => (solved.week[i] === w ? [i] : []));
    const sessions = p.sessionWeek.flatMap((x, s) => (x === w ? [s] : []));
    const used = here.reduce((sum, i) => sum + p.slots[i], 0);
    const overtime = here.reduce((sum, i) => sum + places[i].overtime, 0);
    return {
      week,
      slots: sessions.reduce((sum, s) => sum + p.sessionSlots[s], 0),
      used,
      overtime,
      workshop: capacity.workshop.map((limit, g) => {
        const jobs = here.reduce((sum, i) => sum + (p.jobs[i].find((j) => j.limit === g)?.count ?? 0), 0);
        return {
          families: limit.families,
          limit: limit.jobsByWeek[w],
          used: jobs,
          over: Math.max(0, jobs - limit.jobsByWeek[w]),
        };
      }),
    };
  });
  return {
    visits,
    weeks,
    harmed: harmedVisits(p, capacity, solved.week),
    relief: reliefOf(p, capacity, solved.prices),
    cost: solved.cost,
    lowerBound: solved.lowerBound,
    gap: Math.max(0, solved.cost - solved.lowerBound) / Math.max(1, solved.cost),
    columns: solved.columns,
    rounds: solved.rounds,
  };
}
