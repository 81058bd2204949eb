import type { DeviceForecast } from '../../forecast/contract.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { defaultTurnaround } from '../../turnaround/default-turnaround.js';
import { dueByChance } from './due-by-chance.js';

/** 80th percentile of a log-normal time, from its median: exp(0.842 x SD of the log). */
const P80_Z = 0.842;

/** The part wanted first: the day to order it by, its own time in the workshop before its limit, and the day it is as likely as not at its limit. */
export function partDue(
  rule: FamilyRule,
  forecast: DeviceForecast,
  accepted: number,
): { part: string; by: IsoDate; spentOn: IsoDate | null } | null {
  const due = (forecast.parts ?? []).flatMap((p) => {
    const day = dueByChance(p.days, accepted);
    const part = rule.parts.find((x) => x.id === p.part);
    if (day === null || !part) return [];
    const wait = part.turnaroundDays.value * Math.exp(P80_Z * defaultTurnaround(rule.id).logSd);
    return [{ part: part.id, by: addDaysIso(day, -Math.ceil(wait)), spentOn: dueByChance(p.days, 0.5) }];
  });
  return due.sort((a, b) => a.by.localeCompare(b.by))[0] ?? null;
}
