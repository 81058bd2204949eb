import { decimalAgeYears } from '../../records/age.js';
import type { Caseload } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { usualLifetimeMonths } from '../../rules/by-age.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { groupBy } from '../../statistics/group-by.js';

const MONTHS = 12;
const DAYS_A_MONTH = 30.44;
/** Grown up, a device is renewed by wear and no child's clinic casts it. */
const ADULT_YEARS = 18;

export interface WorkloadAhead {
  /** 'YYYY-MM', this month first. */
  readonly months: readonly string[];
  /** Casts in each of these months, most first. */
  readonly families: readonly { readonly family: string; readonly casts: readonly number[] }[];
}

/**
 * Casts of the months ahead: of every device in use the day its successor must be begun (the middle of its forecast,
 * else its usual life, less the days it takes to make), and of the successor again after the usual life at that age.
 * @param middleOf middle date of the latest forecast, null without one
 * @param makingDays days from cast to fitting, half of the time
 */
export function workloadAhead(
  { children, devices }: Pick<Caseload, 'children' | 'devices'>,
  middleOf: (deviceId: string) => IsoDate | null,
  makingDays: (family: string) => number,
  rules: FitRules,
  today: IsoDate,
): WorkloadAhead {
  const months = Array.from({ length: MONTHS }, (_, i) => monthAfter(today.slice(0, 7), i));
  const active = new Map(children.filter((c) => c.status === 'active').map((c) => [c.id, c]));
  const until = addDaysIso(`${months.at(-1)}-28`, 3);
  const casts: { family: string; month: string }[] = [];
  for (const device of devices) {
    const child = active.get(device.childId);
    const rule = rules.get(device.family);
    if (!child || !rule || device.status === 'retired') continue;
    const lifeDays = (from: IsoDate): number | null => {
      const life = usualLifetimeMonths(rule, decimalAgeYears(child.birthDate, from));
      return life ? Math.max(30, ((life.low + life.high) / 2) * DAYS_A_MONTH) : null;
    };
    const from = device.fittedDate ?? device.castDate;
    const usual = lifeDays(from);
    const ends = middleOf(device.id) ?? (usual === null ? null : addDaysIso(from, usual));
    if (ends === null) continue;
    let cast = [today, addDaysIso(ends, -makingDays(device.family))].toSorted()[1];
    while (cast <= until && decimalAgeYears(child.birthDate, cast) < ADULT_YEARS) {
      casts.push({ family: device.family, month: cast.slice(0, 7) });
      const next = lifeDays(cast);
      if (next === null) break;
      cast = addDaysIso(cast, next);
    }
  }
  const families = [...groupBy(casts, (c) => c.family)].map(([family, own]) => ({
    family,
    casts: months.map((m) => own.filter((c) => c.month === m).length),
  }));
  const total = (f: { readonly casts: readonly number[] }) => f.casts.reduce((a, b) => a + b, 0);
  return { months, families: families.toSorted((a, b) => total(b) - total(a)) };
}

function monthAfter(month: string, n: number): string {
  const [year, number] = month.split('-').map(Number);
  return new Date(Date.UTC(year, number - 1 + n, 1)).toISOString().slice(0, 7);
}

/** Why devices ended in the year to `today`, most often first. */
export function whyEnded({ events }: Pick<Caseload, 'events'>, today: IsoDate): [string, number][] {
  const since = addDaysIso(today, -365);
  const ended = events.filter((e) => e.kind === 'retired' && e.date > since && e.date <= today);
  return [...groupBy(ended, (e) => e.endReason ?? 'not said')]
    .map(([reason, own]): [string, number] => [reason.replaceAll('-', ' '), own.length])
    .toSorted((a, b) => b[1] - a[1]);
}
