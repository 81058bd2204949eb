import { actionIds, type Visit } from '../contract.js';

/**
 * The one order of everything that lists visits: see now and repair first, then by the harm of waiting a week; days
 * beyond use break ties, then the day it is wanted by, the kind of visit and the child's id.
 */
export function byHarm(
  a: Pick<Visit, 'action' | 'harmPerWeek' | 'daysBeyondUse' | 'dueBy' | 'childId'>,
  b: Pick<Visit, 'action' | 'harmPerWeek' | 'daysBeyondUse' | 'dueBy' | 'childId'>,
): number {
  const rank = (v: Pick<Visit, 'action'>) =>
    Math.min(actionIds.indexOf(v.action), actionIds.indexOf('measure'));
  return (
    rank(a) - rank(b) ||
    b.harmPerWeek - a.harmPerWeek ||
    b.daysBeyondUse - a.daysBeyondUse ||
    (a.dueBy ?? '9999').localeCompare(b.dueBy ?? '9999') ||
    actionIds.indexOf(a.action) - actionIds.indexOf(b.action) ||
    a.childId.localeCompare(b.childId)
  );
}
