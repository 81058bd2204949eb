import { addMonthsIso } from '../../recall/decide/calendar.js';
import { decimalAgeYears } from '../../records/age.js';
import type { Caseload } from '../../records/caseload.js';
import { addDaysIso, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { usualLifetimeMonths } from '../../rules/by-age.js';
import type { FamilyRule, FitRules } from '../../rules/fit-rule.js';
import { groupBy } from '../../statistics/group-by.js';
import { endReasonNames } from '../../words/event-names.js';

const MONTHS = 12;
const DAYS_A_MONTH = 30.44;
const SHORTEST_DAYS = 30;
/** Grown up, a device is renewed by wear and no child's clinic casts it. */
const ADULT_YEARS = 18;

export interface CastAhead {
  readonly childId: string;
  readonly deviceId: string;
  readonly family: string;
  readonly day: IsoDate;
  /** Of a successor of the successor: nobody's list has it yet. */
  readonly later: boolean;
}

/**
 * Casts of the months ahead: of every device in use the day its successor must be begun (the middle of its forecast,
 * else its usual life, less the days it takes to make), and of the successor again after the usual life at that age, or
 * sooner where growth ends this one sooner after its cast: a child of four outgrows the next as fast. A treatment that ends, as a helmet's does, goes on to no successor of the successor.
 * @param middleOf middle date of the latest forecast, null without one
 * @param makingDays days from cast to fitting, half of the time
 * @param fundedAfterMonths months after which the funder pays the next of a side, by family; a cast waits for it
 */
export function workloadAhead(
  { children, devices }: Pick<Caseload, 'children' | 'devices'>,
  middleOf: (deviceId: string) => IsoDate | null,
  makingDays: (family: string) => number,
  fundedAfterMonths: Readonly<Record<string, number>>,
  rules: FitRules,
  today: IsoDate,
) {
  // 'YYYY-MM', this month first.
  const months = Array.from({ length: MONTHS }, (_, i) =>
    addMonthsIso(`${today.slice(0, 7)}-01`, i).slice(0, 7),
  );
  const active = new Map(children.filter((c) => c.status === 'active').map((c) => [c.id, c]));
  const until = addDaysIso(`${months.at(-1)}-28`, 3);
  const next = new Set(devices.flatMap((d) => (d.status === 'retired' ? [] : (d.replaces ?? []))));
  const inUse: string[] = [];
  const casts: CastAhead[] = [];
  for (const device of devices) {
    const child = active.get(device.childId);
    const rule = rules.get(device.family);
    if (!child || !rule || device.status === 'retired') continue;
    inUse.push(device.family);
    // A device with the next one already cast needs none for now; that one has its own line.
    if (next.has(device.id)) continue;
    const days = castDays(device, child.birthDate, rule, middleOf(device.id), until, {
      today,
      makingDays: makingDays(device.family),
      waitMonths: fundedAfterMonths[device.family] ?? 0,
    });
    days.forEach((day, i) => {
      casts.push({ childId: child.id, deviceId: device.id, family: device.family, day, later: i > 0 });
    });
  }
  const castsOf = groupBy(casts, (c) => c.family);
  const families = [...groupBy(inUse, (family) => family)].map(([family, devices]) => ({
    family,
    inUse: devices.length,
    casts: months.map((m) => (castsOf.get(family) ?? []).filter((c) => c.day.startsWith(m)).length),
  }));
  const total = (f: { readonly casts: readonly number[] }) => f.casts.reduce((a, b) => a + b, 0);
  const all = casts.toSorted((a, b) => a.day.localeCompare(b.day));
  return { all, months, families: families.toSorted((a, b) => total(b) - total(a)) };
}

/** Days on which the successors of one device are cast, up to a day. */
function castDays(
  device: Device,
  birthDate: IsoDate,
  rule: FamilyRule,
  middle: IsoDate | null,
  until: IsoDate,
  { today, makingDays, waitMonths }: { today: IsoDate; makingDays: number; waitMonths: number },
): IsoDate[] {
  const usualEnd = (from: IsoDate): IsoDate | null => {
    const life = usualLifetimeMonths(rule, decimalAgeYears(birthDate, from));
    return life && addDaysIso(from, Math.max(SHORTEST_DAYS, ((life.low + life.high) / 2) * DAYS_A_MONTH));
  };
  const from = device.fittedDate ?? device.castDate;
  // A course of treatment ends: only what is outgrown before asks for another, and that one is the last.
  const course = rule.courseDays && addDaysIso(from, rule.courseDays.value);
  const ends = middle ?? (course ? null : usualEnd(from));
  if (ends === null || (course && ends >= course)) return [];
  const days: IsoDate[] = [];
  let cast = latest(today, addDaysIso(ends, -makingDays), addMonthsIso(from, waitMonths));
  while (cast <= until && decimalAgeYears(birthDate, cast) < ADULT_YEARS) {
    days.push(cast);
    const worn = course ? null : usualEnd(cast);
    if (worn === null) break;
    const [soonest] = [worn, ...outgrownAgain(device, middle, cast, makingDays)].sort();
    cast = latest(soonest, addMonthsIso(cast, waitMonths));
  }
  return days;
}

/** When growth ends a device cast on a day, as fast as it ends this one, less the making; nothing without a middle date. */
const outgrownAgain = (
  device: Device,
  middle: IsoDate | null,
  cast: IsoDate,
  makingDays: number,
): IsoDate[] =>
  middle === null
    ? []
    : [addDaysIso(cast, Math.max(SHORTEST_DAYS, daysBetween(device.castDate, middle) - makingDays))];

const latest = (...days: IsoDate[]): IsoDate => days.toSorted().at(-1) as IsoDate;

/** Why each device that ended in the year to `today` did. */
export function endReasons(
  { devices, events }: Pick<Caseload, 'devices' | 'events'>,
  today: IsoDate,
): string[] {
  const since = addDaysIso(today, -365);
  const ended = events.filter((e) => e.kind === 'retired' && e.date > since && e.date <= today);
  const outgrown = new Set(events.flatMap((e) => (e.verdict === 'outgrown' ? e.deviceId : [])));
  const replaced = new Set(devices.flatMap((d) => d.replaces ?? []));
  const reason = (e: (typeof ended)[number]): string => {
    if (e.endReason) return endReasonNames[e.endReason];
    if (outgrown.has(e.deviceId)) return 'outgrown';
    return replaced.has(e.deviceId) ? 'replaced by the next, reason not said' : 'not said';
  };
  return ended.map(reason);
}

export const byCount = (words: readonly string[]): [string, number][] =>
  [...groupBy(words, (word) => word)]
    .map(([word, own]): [string, number] => [word, own.length])
    .toSorted((a, b) => b[1] - a[1]);
