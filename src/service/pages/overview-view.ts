import type { WeekLoad } from '../../charts/capacity-chart.js';
import type { Caseload } from '../../devices/caseload.js';
import { addDaysIso, daysBetween, type IsoDate } from '../../measurements/dates.js';
import { weekStart } from '../../recall/calendar.js';
import { groupBy } from '../../statistics/group-by.js';
import type { PastForecast, RecallRow } from '../../store/contract.js';

/** A forecast must be this old when the device was judged outgrown to count as one. */
const MADE_AHEAD_DAYS = 30;

export interface Verdicts {
  readonly n: number;
  readonly before10: number;
  readonly between: number;
  readonly after90: number;
  /** Middle of the distances between the even-chance date and the day judged outgrown, days; null without any. */
  readonly middleMissDays: number | null;
  /** Days from judged outgrown to the next device's fitting: how many such waits, and the middle one. */
  readonly waits: number;
  readonly middleWaitDays: number | null;
}

/** Forecasts held against the day a clinician judged the device outgrown: counts, no score. */
export function forecastAgainstVerdicts(caseload: Caseload, past: readonly PastForecast[]): Verdicts {
  const byDevice = groupBy(past, (f) => f.deviceId);
  const misses: number[] = [];
  const waits: number[] = [];
  let before10 = 0;
  let between = 0;
  let after90 = 0;
  for (const device of caseload.devices) {
    const judged = caseload.events
      .filter((e) => e.deviceId === device.id && e.verdict === 'outgrown')
      .map((e) => e.date)
      .toSorted()[0];
    if (!judged) continue;
    const next = caseload.devices
      .filter(
        (d) =>
          d.childId === device.childId &&
          d.family === device.family &&
          d.side === device.side &&
          d.castDate > device.castDate &&
          d.fittedDate !== null,
      )
      .map((d) => d.fittedDate as IsoDate)
      .toSorted()[0];
    if (next) waits.push(Math.max(0, daysBetween(judged, next)));
    const made = byDevice
      .get(device.id)
      ?.filter((f) => f.outcome === 'forecast' && daysBetween(f.today, judged) >= MADE_AHEAD_DAYS)
      .at(-1);
    if (!made?.p10) continue;
    if (judged < made.p10) before10 += 1;
    else if (made.p90 === null || judged <= made.p90) between += 1;
    else after90 += 1;
    if (made.p50) misses.push(Math.abs(daysBetween(made.p50, judged)));
  }
  return {
    n: before10 + between + after90,
    before10,
    between,
    after90,
    middleMissDays: middle(misses),
    waits: waits.length,
    middleWaitDays: middle(waits),
  };
}

const middle = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

export interface YearCounts {
  readonly children: number;
  readonly visits: number;
  readonly casts: number;
  readonly neverMeasured: number;
  readonly notSeenForAYear: number;
}

/** What was done in the year to `today`, counted. */
export function yearCounts(caseload: Caseload, today: IsoDate): YearCounts {
  const since = addDaysIso(today, -365);
  const active = caseload.children.filter((c) => c.status === 'active');
  const days = groupBy(caseload.measurements, (m) => m.childId);
  const visits = new Set(
    caseload.measurements
      .filter((m) => m.date > since && m.date <= today)
      .map((m) => `${m.childId} ${m.date}`),
  );
  const last = (id: string) =>
    (days.get(id) ?? [])
      .map((m) => m.date)
      .toSorted()
      .at(-1) ?? '';
  return {
    children: active.length,
    visits: visits.size,
    casts: caseload.devices.filter((d) => d.castDate > since && d.castDate <= today).length,
    neverMeasured: active.filter((c) => last(c.id) === '').length,
    notSeenForAYear: active.filter((c) => last(c.id) !== '' && last(c.id) <= since).length,
  };
}

/**
 * Casts by week against its slots: the booked day, else the planned week where the list was levelled, else the week of the latest safe date; the overdue now.
 * @param slots by week (Monday), ascending, as slotsByWeek gives them
 */
export function castsByWeek(rows: readonly RecallRow[], slots: ReadonlyMap<IsoDate, number>): WeekLoad[] {
  const [first] = slots.keys();
  const load = new Map<IsoDate, number>();
  for (const row of rows) {
    if (row.entry.action !== 'cast' || ['done', 'declined'].includes(row.state)) continue;
    const day =
      (row.state === 'booked' && row.appointment) || (row.entry.plannedWeek ?? row.entry.latestSafe);
    if (!day) continue;
    const week = day < first ? first : weekStart(day);
    load.set(week, (load.get(week) ?? 0) + 1);
  }
  return [...slots].map(([week, capacity]) => ({ weekStart: week, load: load.get(week) ?? 0, capacity }));
}
