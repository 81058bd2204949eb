import type { DeviceForecast, Flag } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { StageDurations } from '../../turnaround/expected-fitting.js';
import type {
  DeviceDue,
  RecallAction,
  RecallEntry,
  ReplacementInProgress,
  TurnaroundEstimate,
} from '../contract.js';
import { addMonthsIso } from './calendar.js';
import { deviceDue, isForecast, toleranceOf } from './device-due.js';
import { lastMeasured, lastSeen, reviewDue } from './last-seen.js';
import { measureFirst } from './measure-first.js';
import {
  cannotForecastReason,
  castReason,
  measureFirstReason,
  notSoonReason,
  reviewReason,
  urgentReason,
  wearReason,
} from './reason-text.js';
import type { RecallSettings } from './recall-settings.js';
import { replacementInProgress } from './replacement-in-progress.js';
import { replacementStatus } from './replacement-status.js';
import { dateOf, joins, windowOf } from './visit-window.js';

/** What recall reads of an assessment; the forecast room's own result fits. */
export interface RecallAssessment {
  readonly childId: string;
  readonly forecasts: readonly DeviceForecast[];
  readonly flags?: readonly Flag[];
}

export type TurnaroundOf = (family: string) => TurnaroundEstimate;

export type ListName = 'entries' | 'open' | 'cannotForecast' | 'notDue';

/** One child's place in the month: which list, which devices, what to do and what to say. */
export function planChild(
  record: ChildRecord,
  assessment: RecallAssessment | undefined,
  turnaround: TurnaroundOf,
  history: StageDurations,
  today: IsoDate,
  end: IsoDate,
  settings: RecallSettings,
): { entry: RecallEntry | null; list: ListName; inProgress: ReplacementInProgress[] } {
  const forecasts = new Map(assessment?.forecasts.map((f) => [f.deviceId, f]));
  const worn = record.devices.filter(
    (d) => d.status === 'worn' && d.castDate <= today && forecasts.get(d.id)?.outcome !== 'not-in-use',
  );
  const inProgress: ReplacementInProgress[] = [];
  const devices: DeviceDue[] = [];
  for (const device of worn) {
    const forecast = forecasts.get(device.id) ?? null;
    const replacement = replacementInProgress(device, record, today);
    if (replacement) {
      const tolerance = toleranceOf(record, settings);
      inProgress.push(
        replacementStatus(
          device,
          forecast,
          replacement,
          turnaround(device.family),
          history,
          today,
          tolerance,
        ),
      );
    } else devices.push(deviceDue(device, forecast, record, turnaround(device.family), today, settings));
  }
  const urgent = assessment?.flags?.some((f) => f.severity === 'act-now') ?? false;
  if (devices.length === 0 && !(urgent && worn.length > 0))
    return { entry: null, list: 'notDue', inProgress };

  const grows = devices.some((d) => d.wearReview === null);
  const base = {
    childId: record.child.id,
    insensateSkin: record.child.insensateSkin,
    siblingGroup: record.child.siblingGroup,
    lastSeen: lastSeen(record, today),
    reviewDue: reviewDue(record, today, settings, !grows),
  };
  const entry = (action: RecallAction, of: readonly DeviceDue[], reason: string): RecallEntry => ({
    ...base,
    ...windowOf(of),
    action,
    reason,
    devices: of,
    otherDevices: devices.filter((d) => !of.includes(d)),
    deviceIds: of.map((d) => d.deviceId),
    forecasts: of.flatMap((d) => (d.forecast ? [d.forecast] : [])),
    overdue: (windowOf(of).latestSafe ?? today) < today,
  });

  if (urgent) return { entry: entry('urgent-contact', devices, urgentReason()), list: 'entries', inProgress };

  const due = devices.filter((d) => (dateOf(d) ?? '9999') <= end);
  if (due.length > 0) {
    const joined = devices.filter((d) => due.includes(d) || joins(d, due, settings));
    const cast = joined.filter((d) => d.castDate !== null);
    if (cast.length === 0) {
      const reason = wearReason(joined, windowOf(joined).latestSafe!);
      return { entry: entry('review-wear', joined, reason), list: 'entries', inProgress };
    }
    const visit = entry('cast', joined, reasonToCast(cast, today));
    return { entry: askingFirst(visit, turnaround), list: 'entries', inProgress };
  }
  const measured = lastMeasured(record, today);
  const stale = measured === null || addMonthsIso(measured, settings.staleMonths) < today;
  const blind = devices.filter((d) => d.wearReview === null && (stale || !isForecast(d.forecast)));
  if (blind.length > 0) {
    const blocked = blind.some((d) => d.forecast?.outcome === 'blocked');
    const reason = blocked ? urgentReason() : cannotForecastReason(blind, base.lastSeen);
    return {
      entry: entry(blocked ? 'urgent-contact' : 'measure', blind, reason),
      list: 'cannotForecast',
      inProgress,
    };
  }
  if (base.reviewDue <= end) {
    return {
      entry: entry('measure', devices, reviewReason(base.reviewDue, base.lastSeen)),
      list: 'entries',
      inProgress,
    };
  }
  const worth = devices.filter((d) => d.castDate?.worthIt && d.castDate.worthIt <= end);
  if (worth.length > 0)
    return { entry: entry('cast', worth, reasonToCast(worth, today)), list: 'open', inProgress };
  return { entry: entry('cast', devices, reasonToCast(devices, today)), list: 'notDue', inProgress };
}

/** A cast that is not late asks for a measurement first where that may move its date. */
function askingFirst(entry: RecallEntry, turnaround: TurnaroundOf): RecallEntry {
  const where = entry.overdue ? null : measureFirst(entry.devices, turnaround, entry.insensateSkin);
  if (where === null) return entry;
  return { ...entry, measureFirst: where, reason: `${entry.reason} ${measureFirstReason(where)}` };
}

function reasonToCast(devices: readonly DeviceDue[], today: IsoDate): string {
  const forecasts = devices.flatMap((d) => (d.forecast ? [d.forecast] : []));
  const { latestSafe } = windowOf(devices);
  if (latestSafe === null) return notSoonReason(devices);
  return castReason({
    devices,
    outgrownFrom: forecasts.flatMap((f) => f.p10 ?? []).sort()[0] ?? null,
    outgrownTo:
      forecasts
        .flatMap((f) => f.p90 ?? [])
        .sort()
        .at(-1) ?? null,
    latestSafe,
    overdue: latestSafe < today,
    alreadyOutgrown: forecasts.some((f) => f.outcome === 'already-outgrown'),
    today,
  });
}
