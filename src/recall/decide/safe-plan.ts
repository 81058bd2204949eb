import type { ChildRecord } from '../../records/caseload.js';
import { isIsoDate } from '../../records/dates.js';
import type { DeviceDecision } from '../contract.js';
import { acceptedChance, harmADay } from './accepted-chance.js';
import { alertsOf } from './alerts-of.js';
import { lastSeen } from './last-seen.js';
import { type ChildPlan, type PlanContext, planChild, type RecallAssessment } from './plan-child.js';
import { visitOf } from './visit-of.js';

/**
 * The child's plan. One whose record the sums cannot take costs no other child its place, and does not vanish: it is
 * wanted today, to be looked at and measured, and by its red flags before anybody else.
 */
export function safePlan(
  record: ChildRecord,
  assessment: RecallAssessment | undefined,
  context: PlanContext,
): ChildPlan & { readonly failed: unknown } {
  try {
    const plan = planChild(record, assessment, context);
    for (const decision of plan.decisions) checkSound(decision);
    return { ...plan, failed: null };
  } catch (failed) {
    return { ...toBeLookedAt(record, assessment, context), failed };
  }
}

/** What comes after works with these dates and figures for all children together. */
function checkSound(decision: DeviceDecision): void {
  const { dueBy, castBy, reviewBy, beyondUseSince, harmPerWeek, daysBeyondUse, reason } = decision;
  for (const date of [dueBy, castBy, reviewBy, beyondUseSince])
    if (date !== null && !isIsoDate(date)) throw new Error('a date of the plan is no date');
  const figures = [harmPerWeek, daysBeyondUse, ...Object.values(reason.numbers)];
  if (figures.some((figure) => typeof figure === 'number' && !Number.isFinite(figure)))
    throw new Error('a figure of the plan is not a number');
}

/** Unknown is not safe: the chance of being beyond use counts as one half. */
const HARM_DAYS = 7 * 0.5;

function toBeLookedAt(
  record: ChildRecord,
  assessment: RecallAssessment | undefined,
  { rules, settings, today }: PlanContext,
): ChildPlan {
  const worn = record.devices.filter((d) => d.status === 'worn' && d.castDate <= today);
  if (record.child.status !== 'active' || worn.length === 0)
    return { decisions: [], entry: null, due: false, inProgress: [] };
  const flag = assessment?.flags?.find((f) => f.severity === 'act-now');
  const decisions = worn.map((device): DeviceDecision => {
    const harm = harmADay(rules.get(device.family) ?? null, record.child.insensateSkin, settings);
    return {
      deviceId: device.id,
      family: device.family,
      side: device.side,
      action: flag ? 'see-now' : 'measure',
      reason: flag ? { code: 'red-flag', numbers: { flag: flag.id } } : { code: 'not-planned', numbers: {} },
      dueBy: today,
      castBy: null,
      tooLateSince: null,
      beyondUseSince: null,
      daysBeyondUse: 0,
      acceptedChance: acceptedChance(harm, settings),
      chanceToday: null,
      chanceByEarliestFitting: null,
      checkFigure: null,
      adjust: null,
      part: null,
      reviewBy: today,
      harmPerWeek: HARM_DAYS * harm,
      fundedFrom: null,
      alerts: alertsOf(record),
      forecast: null,
    };
  });
  const child = {
    childId: record.child.id,
    siblingGroup: record.child.siblingGroup,
    lastSeen: lastSeen(record, today),
  };
  return { decisions, entry: visitOf(decisions, [], child, today), due: true, inProgress: [] };
}
