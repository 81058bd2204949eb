import { type Caseload, type ChildRecord, groupByChild } from '../devices/caseload.js';
import { loadRules } from '../devices/load-rules.js';
import { assessCaseload } from '../forecast/assess-caseload.js';
import type { ChildAssessment } from '../forecast/assess-child.js';
import { loadGrowthModel } from '../growth/model.js';
import type { IsoDate } from '../measurements/dates.js';
import { buildRecallList } from '../recall/build-recall-list.js';
import type { DeviceDue, RecallList, TurnaroundEstimate } from '../recall/contract.js';
import type { RecallSettingsInput } from '../recall/recall-settings.js';
import { estimateTurnaround } from '../turnaround/estimate-turnaround.js';
import { terminal } from './terminal.js';

export interface AssessOptions {
  readonly today: IsoDate;
  readonly month?: string;
  readonly model?: string;
  readonly seed?: number;
  readonly settings?: RecallSettingsInput;
}

/** A caseload with everything that is computed from it. */
export interface Assessed {
  readonly today: IsoDate;
  readonly records: readonly ChildRecord[];
  readonly assessments: ReadonlyMap<string, ChildAssessment>;
  readonly recall: RecallList;
  /** Dates of every device in use, by device. */
  readonly due: ReadonlyMap<string, DeviceDue>;
  readonly turnaroundOf: (family: string) => TurnaroundEstimate;
}

const SEED = 1;
/** Simulated futures a child. */
const DRAWS = 1000;

/** Forecasts and recall dates of a caseload; progress goes to the terminal's error side. */
export function assess(caseload: Caseload, options: AssessOptions): Assessed {
  const { today } = options;
  const records = groupByChild(caseload);
  const context = {
    today,
    model: loadGrowthModel(options.model),
    rules: loadRules(),
    seed: options.seed ?? SEED,
    draws: DRAWS,
  };
  const assessments = assessCaseload(records, context, (done, total) =>
    terminal.progress(`Forecasting ${done} of ${total} children ...`),
  );
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
    lists.flatMap((list) => list.flatMap((e) => e.devices.map((d) => [d.deviceId, d] as const))),
  );
  return {
    today,
    records,
    assessments: new Map(assessments.map((a) => [a.childId, a])),
    recall,
    due,
    turnaroundOf,
  };
}
