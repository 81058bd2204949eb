import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { WorkshopJob } from '../../records/device.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { onceFor } from '../../statistics/once-for.js';
import { stageDurations } from '../../turnaround/expected-fitting.js';
import type { RecallEntry, RecallList, ReplacementInProgress, TurnaroundEstimate } from '../contract.js';
import { monthEnd } from './calendar.js';
import type { PlanContext, RecallAssessment, TurnaroundOf } from './plan-child.js';
import { type RecallSettingsInput, recallSettings } from './recall-settings.js';
import { safePlan } from './safe-plan.js';
import { byHarm } from './working-order.js';

export type { RecallAssessment, TurnaroundOf } from './plan-child.js';

export interface RecallListOptions {
  readonly today: IsoDate;
  readonly rules: FitRules;
  /** 'YYYY-MM': look ahead to the end of that month; else today and the next five weeks, whatever the month. */
  readonly month?: string | null;
  readonly settings?: RecallSettingsInput;
  /** Hears why a child could not be planned. */
  readonly failed?: (error: unknown) => void;
}

const durationsOf = onceFor(stageDurations);

/** What every child is planned by; turnarounds and the workshop's history are read once. */
export function planContext(
  jobs: readonly WorkshopJob[],
  turnaround: TurnaroundOf,
  { today, rules, month, settings: given = {} }: RecallListOptions,
): PlanContext {
  const settings = recallSettings.parse(given);
  const estimates = new Map<string, TurnaroundEstimate>();
  return {
    rules,
    turnaroundOf: (family) => {
      const known = estimates.get(family) ?? turnaround(family);
      estimates.set(family, known);
      return known;
    },
    history: durationsOf(jobs, today),
    today,
    until: month ? monthEnd(month) : addDaysIso(today, settings.aheadDays),
    settings,
  };
}

/**
 * Who is wanted for what, so that the next device is fitted before the present one is beyond use. Every active child
 * with a device in use is in exactly one of the two lists.
 */
export function buildRecallList(
  assessments: readonly RecallAssessment[],
  records: readonly ChildRecord[],
  turnaround: TurnaroundOf,
  options: RecallListOptions,
): RecallList {
  const context = planContext(
    records.flatMap((r) => r.jobs),
    turnaround,
    options,
  );
  const byChild = new Map(assessments.map((a) => [a.childId, a]));
  const entries: RecallEntry[] = [];
  const notDue: RecallEntry[] = [];
  const inProgress: ReplacementInProgress[] = [];
  const notPlanned: string[] = [];
  for (const record of records) {
    const plan = safePlan(record, byChild.get(record.child.id), context);
    if (plan.failed !== null) {
      notPlanned.push(record.child.id);
      options.failed?.(plan.failed);
    }
    inProgress.push(...plan.inProgress);
    if (plan.entry) (plan.due ? entries : notDue).push(plan.entry);
  }
  const next = (e: RecallEntry) => e.dueBy ?? '9999';
  return {
    today: options.today,
    until: context.until,
    month: options.month ?? null,
    entries: entries.sort(byHarm),
    notDue: notDue.sort((a, b) => next(a).localeCompare(next(b)) || a.childId.localeCompare(b.childId)),
    inProgress,
    notPlanned,
  };
}
