import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { CastDate, DeviceDue, TurnaroundEstimate } from '../contract.js';
import { addMonthsIso } from './calendar.js';
import { castDate } from './cast-date.js';
import { lastSeen } from './last-seen.js';
import type { RecallSettings } from './recall-settings.js';

/**
 * A device in use with its cast dates where growth decides, its wear review where it does not, and neither where
 * nothing can be said.
 */
export function deviceDue(
  device: Device,
  forecast: DeviceForecast | null,
  record: ChildRecord,
  turnaround: TurnaroundEstimate,
  today: IsoDate,
  settings: RecallSettings,
): DeviceDue {
  const base = { deviceId: device.id, family: device.family, side: device.side, forecast };
  const byWear =
    record.child.palliative || (forecast && ['full-grown', 'adult', 'palliative'].includes(forecast.outcome));
  if (byWear) {
    const since = [device.fittedDate ?? device.castDate, lastSeen(record, today) ?? device.castDate];
    return {
      ...base,
      castDate: null,
      wearReview: addMonthsIso(since.sort().at(-1)!, settings.wearReviewMonths),
    };
  }
  if (!isForecast(forecast)) return { ...base, castDate: null, wearReview: null };
  if (forecast.outcome === 'already-outgrown' && forecast.dates.length === 0) {
    return {
      ...base,
      castDate: outgrownNow(forecast, turnaround, toleranceOf(record, settings)),
      wearReview: null,
    };
  }
  const months = settings.eligibleAfterMonths[device.family] ?? 0;
  const dates: CastDate = castDate({
    forecast,
    turnaround,
    today,
    riskTolerance: toleranceOf(record, settings),
    fitWaitDays: settings.fitWaitDays,
    worthItWithinDays: settings.worthItWithinDays,
    minimumWindowDays: settings.minimumWindowDays,
    eligibleFrom: months > 0 ? addMonthsIso(device.fittedDate ?? device.castDate, months) : null,
  });
  return { ...base, castDate: dates, wearReview: null };
}

export const toleranceOf = (record: ChildRecord, settings: RecallSettings) =>
  record.child.insensateSkin ? settings.riskToleranceInsensate : settings.riskTolerance;

/** Does the outcome say something about when it is outgrown? */
export function isForecast(f: DeviceForecast | null): f is DeviceForecast {
  return f !== null && ['forecast', 'already-outgrown', 'beyond-horizon'].includes(f.outcome);
}

/** Outgrown without chances over dates: it should have been cast a turnaround ago at the latest. */
const outgrownNow = (f: DeviceForecast, turnaround: TurnaroundEstimate, riskTolerance: number): CastDate => {
  const latestSafe = addDaysIso(f.today, -turnaround.p80Days);
  return {
    deviceId: f.deviceId,
    latestSafe,
    worthIt: latestSafe,
    riskTolerance,
    riskIfCastToday: 1,
    overdue: true,
  };
};
