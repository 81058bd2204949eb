import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import { stageDurations } from '../../turnaround/expected-fitting.js';
import type { RecallEntry, RecallList, ReplacementInProgress, TurnaroundEstimate } from '../contract.js';
import { monthEnd } from './calendar.js';
import { planChild, type RecallAssessment, type TurnaroundOf } from './plan-child.js';
import { type RecallSettingsInput, recallSettings } from './recall-settings.js';

export type { RecallAssessment, TurnaroundOf } from './plan-child.js';

export interface RecallListOptions {
  /** 'YYYY-MM'. */
  readonly month: string;
  readonly today: IsoDate;
  readonly settings?: RecallSettingsInput;
}

/**
 * Who must be called so that the next device is fitted before the present one is outgrown.
 * Every active child with a device in use is in exactly one list by child: an entry, open, cannotForecast or notDue;
 * a device whose replacement is being made is in `inProgress` instead.
 */
export function buildRecallList(
  assessments: readonly RecallAssessment[],
  records: readonly ChildRecord[],
  turnaround: TurnaroundOf,
  options: RecallListOptions,
): RecallList {
  const settings = recallSettings.parse(options.settings ?? {});
  const byChild = new Map(assessments.map((a) => [a.childId, a]));
  const estimates = new Map<string, TurnaroundEstimate>();
  const memo: TurnaroundOf = (family) => {
    const known = estimates.get(family) ?? turnaround(family);
    estimates.set(family, known);
    return known;
  };
  const history = stageDurations(
    records.flatMap((r) => r.jobs),
    options.today,
  );
  const end = monthEnd(options.month);
  const list = {
    entries: [] as RecallEntry[],
    open: [] as RecallEntry[],
    cannotForecast: [] as RecallEntry[],
    notDue: [] as RecallEntry[],
    inProgress: [] as ReplacementInProgress[],
  };
  for (const record of records) {
    if (record.child.status !== 'active') continue;
    const result = planChild(
      record,
      byChild.get(record.child.id),
      memo,
      history,
      options.today,
      end,
      settings,
    );
    list.inProgress.push(...result.inProgress);
    if (result.entry) list[result.list].push(result.entry);
  }
  for (const entries of [list.entries, list.open, list.cannotForecast, list.notDue]) entries.sort(byUrgency);
  return { month: options.month, today: options.today, ...list };
}

/** Urgent contact, overdue, then by date, insensate skin first among equals; the child's id settles ties. */
function byUrgency(a: RecallEntry, b: RecallEntry): number {
  const rank = (e: RecallEntry) => (e.action === 'urgent-contact' ? 0 : e.overdue ? 1 : 2);
  const date = (e: RecallEntry) => e.latestSafe ?? e.reviewDue ?? '9999';
  return (
    rank(a) - rank(b) ||
    date(a).localeCompare(date(b)) ||
    Number(b.insensateSkin) - Number(a.insensateSkin) ||
    a.childId.localeCompare(b.childId)
  );
}
