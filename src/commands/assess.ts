import { clinicList, withWeeks } from '../clinic/clinic-list.js';
import type { DeviceDecision, RecallList, TurnaroundEstimate } from '../recall/contract.js';
import type { RecallSettingsInput } from '../recall/decide/recall-settings.js';
import type { ClinicWeekInput } from '../recall/level/clinic-week.js';
import { solveAside } from '../recall/level/solve-aside.js';
import { type Caseload, type ChildRecord, groupByChild } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import { tensorBackend } from '../statistics/tensor/tensor-backend.js';
import { withDecisionSentences, withSentences } from '../words/reason-sentence.js';
import { type Answer, type AssessSettings, assessInParallel, startThreads } from './assess-in-parallel.js';
import { terminal } from './terminal.js';

export interface AssessOptions {
  readonly today: IsoDate;
  readonly month?: string;
  /** The shipped ones by default. */
  readonly rules?: FitRules;
  readonly settings?: RecallSettingsInput;
  /** The clinic's week, where every visit is to be given one. */
  readonly clinic?: ClinicWeekInput;
  /** Done while a thread plans the weeks, with the list as it is without them. */
  readonly meanwhile?: (assessed: Assessed) => Promise<void>;
}

/** A caseload with everything that is computed from it. */
export interface Assessed {
  readonly today: IsoDate;
  readonly records: readonly ChildRecord[];
  readonly assessments: ReadonlyMap<string, Answer>;
  readonly recall: RecallList;
  /** What every device in use asks for, by device. */
  readonly decisions: ReadonlyMap<string, DeviceDecision>;
  readonly turnaroundOf: (family: string) => TurnaroundEstimate;
}

const SEED = 1;
/** Simulated futures a child. */
const DRAWS = 512;

export const settingsOf = ({ today, rules = loadRules() }: AssessOptions): AssessSettings => ({
  today,
  rules,
  seed: SEED,
  draws: DRAWS,
});

/** Forecasts and recall dates of a caseload; progress goes to the terminal's error side. */
export async function assess(caseload: Caseload, options: AssessOptions): Promise<Assessed> {
  const { today } = options;
  const records = groupByChild(caseload);
  const settings = settingsOf(options);
  const { rules } = settings;
  startThreads(settings, records.length);
  const progress = (done: number, total: number) =>
    terminal.progress(`Forecasting ${done} of ${total} children (products: ${tensorBackend}) ...`);
  const assessments = await assessInParallel(records, settings, progress);
  terminal.progress('');
  const question = { records, assessments, today, rules, month: options.month, settings: options.settings };
  const answer = clinicList({ ...question, jobs: caseload.jobs });
  const assessed = (list: RecallList): Assessed => ({
    today,
    records,
    assessments: new Map(assessments.map((a) => [a.childId, a])),
    recall: withSentences(list, rules),
    decisions: new Map(
      withDecisionSentences([...answer.decisions.values()], rules).map((d) => [d.deviceId, d]),
    ),
    turnaroundOf: answer.turnaroundOf,
  });
  if (!options.clinic) return assessed(answer.list);
  const endSolving = solveAside();
  try {
    const [levelled] = await Promise.all([
      withWeeks(answer, { ...question, clinic: options.clinic }),
      options.meanwhile?.(assessed(answer.list)),
    ]);
    return assessed(levelled.list);
  } finally {
    await endSolving();
  }
}
