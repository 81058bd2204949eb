import type { DeviceForecast } from '../../forecast/contract.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { defaultTurnaround } from '../../turnaround/default-turnaround.js';
import { LEAST_MM } from './check-figure.js';
import { dueByChance } from './due-by-chance.js';
import type { LimitRoom } from './room-by-readings.js';

/** 80th percentile of a log-normal time, from its median: exp(0.842 x SD of the log). */
const P80_Z = 0.842;

/** The part wanted first: the day to order it by, its own time in the workshop before its limit, and the day it is as likely as not at its limit. */
export function partDue(
  rule: FamilyRule,
  forecast: DeviceForecast,
  accepted: number,
  rooms: readonly LimitRoom[],
  today: IsoDate,
): { part: string; by: IsoDate; spentOn: IsoDate | null } | null {
  const due = (forecast.parts ?? []).flatMap((p) => {
    const day = dueByChance(p.days, accepted);
    const part = rule.parts.find((x) => x.id === p.part);
    if (day === null || !part) return [];
    const wait = part.turnaroundDays.value * Math.exp(P80_Z * defaultTurnaround(rule.id).logSd);
    // Less than the millimetre that can be read is left, as the readings stand.
    const read = rooms.some(
      (r) => seriesKey(r.series) === seriesKey(p.series) && r.roomMm < LEAST_MM && r.adjustments.length === 0,
    );
    const spentOn = read ? today : dueByChance(p.days, 0.5);
    return [{ part: part.id, by: addDaysIso(day, -Math.ceil(wait)), spentOn }];
  });
  return due.sort((a, b) => a.by.localeCompare(b.by))[0] ?? null;
}
