import type { DeviceDecision, RecallLevelling, RecallList, TurnaroundEstimate } from '../recall/contract.js';
import type { RecallAssessment } from '../recall/decide/build-recall-list.js';
import { buildRecallList, planContext, type RecallListOptions } from '../recall/decide/build-recall-list.js';
import { safePlan } from '../recall/decide/safe-plan.js';
import { type LevelRecallOptions, levelRecallList } from '../recall/level/level-recall-list.js';
import type { ChildRecord } from '../records/caseload.js';
import type { WorkshopJob } from '../records/device.js';
import type { FitRules } from '../rules/fit-rule.js';
import { onceFor } from '../statistics/once-for.js';
import { estimateTurnaround } from '../turnaround/estimate-turnaround.js';

/** A clinic's records with what was assessed of them: all that the list is made of. */
export interface ClinicQuestion extends RecallListOptions {
  readonly records: readonly ChildRecord[];
  readonly assessments: readonly RecallAssessment[];
  /** Every job of the workshop; those of the records where left out. */
  readonly jobs?: readonly WorkshopJob[];
}

export interface ClinicAnswer {
  readonly list: RecallList;
  /** Every device in use, by its id. */
  readonly decisions: ReadonlyMap<string, DeviceDecision>;
  readonly turnaroundOf: (family: string) => TurnaroundEstimate;
}

const turnaroundsKnown = onceFor(() => new Map<string, TurnaroundEstimate>());

/** The clinic's turnarounds, each worked out once for the same jobs, day and usual days of its rule. */
export const turnaroundsOf =
  (jobs: readonly WorkshopJob[], today: string, rules: FitRules): ((family: string) => TurnaroundEstimate) =>
  (family) => {
    const known = turnaroundsKnown(jobs, today);
    const key = `${family}/${rules.get(family)?.turnaroundDays.value}`;
    const estimate = known.get(key) ?? estimateTurnaround(jobs, family, today, undefined, rules);
    known.set(key, estimate);
    return estimate;
  };

/** The whole day's work: what every device in use asks for, and who is wanted when. */
export function clinicList(question: ClinicQuestion): ClinicAnswer {
  const { records, assessments, today, rules } = question;
  const turnaroundOf = turnaroundsOf(question.jobs ?? records.flatMap((r) => r.jobs), today, rules);
  const list = buildRecallList(assessments, records, turnaroundOf, question);
  const decisions = new Map(
    [...list.entries, ...list.notDue].flatMap((e) =>
      [...e.devices, ...e.otherDevices].map((d) => [d.deviceId, d] as const),
    ),
  );
  return { list, decisions, turnaroundOf };
}

type WeeksQuestion = ClinicQuestion & Pick<LevelRecallOptions, 'clinic' | 'earlier'>;
export type LevelledAnswer = ClinicAnswer & {
  readonly list: RecallList & { readonly levelling: RecallLevelling };
};

/** The same with a week for every visit. */
export const levelledClinicList = (question: WeeksQuestion): Promise<LevelledAnswer> =>
  withWeeks(clinicList(question), question);

/** Gives every visit of a list its week. */
export async function withWeeks(answer: ClinicAnswer, question: WeeksQuestion): Promise<LevelledAnswer> {
  const children = new Map(question.records.map(({ child }) => [child.id, child]));
  const list = await levelRecallList(answer.list, {
    clinic: question.clinic,
    earlier: question.earlier,
    childOf: (id) => children.get(id),
    turnaroundOf: answer.turnaroundOf,
    settings: question.settings,
    failed: question.failed,
  });
  return { ...answer, list };
}

/** What one child's devices ask for, by the same rules as in the list. */
export function childDecisions(
  record: ChildRecord,
  assessment: RecallAssessment,
  jobs: readonly WorkshopJob[],
  options: RecallListOptions,
): readonly DeviceDecision[] {
  const context = planContext(jobs, turnaroundsOf(jobs, options.today, options.rules), options);
  return safePlan(record, assessment, context).decisions;
}
