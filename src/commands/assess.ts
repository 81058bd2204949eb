import { assessCaseload } from '../forecast/assess-caseload.js';
import { assessChild } from '../forecast/assess-child.js';
import type { GrowthOutcome } from '../growth/contract.js';
import { loadGrowthModel } from '../growth/population/model.js';
import type { DeviceDue, RecallList, TurnaroundEstimate } from '../recall/contract.js';
import { buildRecallList } from '../recall/decide/build-recall-list.js';
import type { RecallSettingsInput } from '../recall/decide/recall-settings.js';
import { type Caseload, type ChildRecord, groupByChild } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import { estimateTurnaround } from '../turnaround/estimate-turnaround.js';
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
}

/** A caseload with everything that is computed from it. */
export interface Assessed {
  readonly today: IsoDate;
  readonly records: readonly ChildRecord[];
  readonly assessments: ReadonlyMap<string, Answer>;
  /** A child's growth posterior, computed when asked for. */
  readonly growthOf: (record: ChildRecord) => GrowthOutcome;
  readonly recall: RecallList;
  /** Dates of every device in use, by device. */
  readonly due: ReadonlyMap<string, DeviceDue>;
  readonly turnaroundOf: (family: string) => TurnaroundEstimate;
}

const SEED = 1;
/** Simulated futures a child. */
const DRAWS = 1000;
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
  const estimates = new Map<string, TurnaroundEstimate>();
  const turnaroundOf = (family: string): TurnaroundEstimate => {
    const estimate = estimates.get(family) ?? estimateTurnaround(caseload.jobs, family, today);
    estimates.set(family, estimate);
    return estimate;
  };
  const recall = buildRecallList(assessments, records, turnaroundOf, {
    month: options.month ?? today.slice(0, 7),
    today,
    settings: options.settings,
  });
  const lists = [recall.entries, recall.open, recall.cannotForecast, recall.notDue];
  const due = new Map(
    lists.flatMap((list) =>
      list.flatMap((e) => [...e.devices, ...e.otherDevices].map((d) => [d.deviceId, d] as const)),
    ),
  );
  return {
    today,
    records,
    assessments: new Map(assessments.map((a) => [a.childId, a])),
    growthOf: (record) => assessChild(record, context()).growth,
    recall,
    due,
    turnaroundOf,
  };
}
