import { clinicList, levelledClinicList } from '../clinic/clinic-list.js';
import { assessCaseload } from '../forecast/assess-caseload.js';
import { assessChild } from '../forecast/assess-child.js';
import type { GrowthOutcome } from '../growth/contract.js';
import { loadGrowthModel } from '../growth/population/model.js';
import type { DeviceDecision, RecallList, TurnaroundEstimate } from '../recall/contract.js';
import type { RecallSettingsInput } from '../recall/decide/recall-settings.js';
import type { ClinicWeekInput } from '../recall/level/clinic-capacity.js';
import { type Caseload, type ChildRecord, groupByChild } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import { withDecisionSentences, withSentences } from '../words/reason-sentence.js';
import { type Answer, assessInParallel } from './assess-in-parallel.js';
import { terminal } from './terminal.js';

export interface AssessOptions {
  readonly today: IsoDate;
  readonly month?: string;
  readonly model?: string;
  /** The shipped ones by default. */
  readonly rules?: FitRules;
  readonly seed?: number;
  readonly settings?: RecallSettingsInput;
  /** The clinic's week, where every visit is to be given one. */
  readonly clinic?: ClinicWeekInput;
}

/** A caseload with everything that is computed from it. */
export interface Assessed {
  readonly today: IsoDate;
  readonly records: readonly ChildRecord[];
  readonly assessments: ReadonlyMap<string, Answer>;
  /** A child's growth posterior, computed when asked for. */
  readonly growthOf: (record: ChildRecord) => GrowthOutcome;
  readonly recall: RecallList;
  /** What every device in use asks for, by device. */
  readonly decisions: ReadonlyMap<string, DeviceDecision>;
  readonly turnaroundOf: (family: string) => TurnaroundEstimate;
}

const SEED = 1;
/** Simulated futures a child. */
const DRAWS = 512;
/** So few children are done before other threads have started. */
const HERE_UP_TO = 8;

/** Forecasts and recall dates of a caseload; progress goes to the terminal's error side. */
export async function assess(caseload: Caseload, options: AssessOptions): Promise<Assessed> {
  const { today } = options;
  const records = groupByChild(caseload);
  const { model, seed = SEED, rules = loadRules() } = options;
  const settings = { today, model, rules, seed, draws: DRAWS };
  const context = () => ({ ...settings, model: loadGrowthModel(model) });
  const progress = (done: number, total: number) =>
    terminal.progress(`Forecasting ${done} of ${total} children ...`);
  const assessments: Answer[] =
    records.length > HERE_UP_TO
      ? await assessInParallel(records, settings, progress)
      : assessCaseload(records, context(), progress);
  terminal.progress('');
  const question = { records, assessments, today, rules, month: options.month, settings: options.settings };
  const { list, decisions, turnaroundOf } = options.clinic
    ? await levelledClinicList({ ...question, jobs: caseload.jobs, clinic: options.clinic })
    : clinicList({ ...question, jobs: caseload.jobs });
  return {
    today,
    records,
    assessments: new Map(assessments.map((a) => [a.childId, a])),
    growthOf: (record) => assessChild(record, context()).growth,
    recall: withSentences(list),
    decisions: new Map(withDecisionSentences([...decisions.values()]).map((d) => [d.deviceId, d])),
    turnaroundOf,
  };
}
