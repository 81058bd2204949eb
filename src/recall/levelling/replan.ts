import { addDaysIso, type IsoDate } from '../../measurements/dates.js';
import type { Capacity, LevellingSettingsInput, Plan, PlanProgress, PlanRequest } from './contract.js';
import { levelPlan } from './level-plan.js';
import { partsOf } from './week-costs.js';

/** What happened since the plan was made. */
export type PlanChange =
  /** The family cannot come that week (or in any of several). */
  | { readonly kind: 'declined'; readonly requestId: string; readonly weeks: readonly IsoDate[] }
  /** Was not brought: the week is gone, a new one is needed from the next on. */
  | { readonly kind: 'did-not-come'; readonly requestId: string; readonly week: IsoDate }
  /** The clinic lost a week, wholly or one clinician's part of it. */
  | { readonly kind: 'clinic-cancelled'; readonly week: IsoDate; readonly clinicianId: string | null }
  /** A measurement moved the dates, or a child is new: the request as it now is. */
  | { readonly kind: 'updated'; readonly request: PlanRequest }
  | { readonly kind: 'done'; readonly requestId: string };

export interface Replan {
  readonly plan: Plan;
  readonly requests: readonly PlanRequest[];
  readonly capacity: Capacity;
  /** Visits that now have another week than before, the changed ones included. */
  readonly moved: readonly {
    readonly requestId: string;
    readonly from: IsoDate | null;
    readonly to: IsoDate | null;
  }[];
}

/** The plan after some changes, with as few other visits moved as is worth it (each move costs `moveCost` days). */
export async function replan(
  before: Plan,
  requests: readonly PlanRequest[],
  capacity: Capacity,
  changes: readonly PlanChange[],
  settings: LevellingSettingsInput = {},
  progress: (p: PlanProgress) => void = () => {},
): Promise<Replan> {
  const weekOf = new Map(before.visits.map((v) => [v.requestId, v.week]));
  const kept = new Map(
    requests.map((r) => [r.id, changed(r, { previousWeek: weekOf.get(r.id) ?? null })] as const),
  );
  let sessions = capacity.sessions;
  for (const change of changes) {
    const request = 'requestId' in change ? kept.get(change.requestId) : undefined;
    switch (change.kind) {
      case 'declined':
        if (request) {
          kept.set(
            request.id,
            changed(request, { previousWeek: null, bookedWeek: null, notInWeeks: change.weeks }),
          );
        }
        break;
      case 'did-not-come':
        if (request) {
          const notBefore = addDaysIso(change.week, 7);
          kept.set(request.id, changed(request, { previousWeek: null, bookedWeek: null, notBefore }));
        }
        break;
      case 'clinic-cancelled': {
        const gone = (s: Capacity['sessions'][number]) =>
          capacity.weeks[s.week] === change.week && (change.clinicianId ?? s.clinicianId) === s.clinicianId;
        sessions = sessions.map((s) => (gone(s) ? { ...s, slots: 0 } : s));
        // Nobody is held to an appointment the clinic itself cannot keep.
        for (const r of kept.values()) {
          if (r.bookedWeek === change.week) kept.set(r.id, changed(r, { bookedWeek: null }));
        }
        break;
      }
      case 'updated': {
        const week = weekOf.get(change.request.id) ?? null;
        kept.set(change.request.id, changed(change.request, { previousWeek: week }));
        break;
      }
      case 'done':
        kept.delete(change.requestId);
    }
  }
  const next = { ...capacity, sessions };
  const after = [...kept.values()];
  const plan = await levelPlan(after, next, settings, progress);
  const moved = plan.visits.flatMap((v) => {
    const from = weekOf.get(v.requestId);
    return from !== undefined && from !== v.week ? [{ requestId: v.requestId, from, to: v.week }] : [];
  });
  return { plan, requests: after, capacity: next, moved };
}

/** A change holds for the visit and for every part of it; weeks ruled out add up. */
function changed(request: PlanRequest, by: Partial<PlanRequest>): PlanRequest {
  const apply = (r: PlanRequest): PlanRequest => ({
    ...r,
    ...by,
    notInWeeks: [...r.notInWeeks, ...(by.notInWeeks ?? [])],
  });
  const parts = request.parts.length > 0 ? partsOf(request).map(apply) : [];
  return { ...apply(request), parts };
}
