import { daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { groupBy } from '../../statistics/group-by.js';
import { median } from '../../statistics/median.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import type { ForecastOutcome } from '../contract.js';

/** What is kept of a forecast. */
export interface KeptForecast {
  readonly deviceId: string;
  readonly today: IsoDate;
  readonly outcome: ForecastOutcome;
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
  /** Where it was made for a day long past: the day it was really made. */
  readonly madeOn?: IsoDate | null;
}

/** Devices whose date of this chance has passed, by what a clinician found; a share of those found is what counts. */
export interface DateHeld {
  /** Chance the forecast gave of being outgrown by the date: 0.1, 0.5, 0.9. */
  readonly chance: number;
  /** Judged outgrown on or before the date. */
  readonly outgrown: number;
  /** Judged outgrown later, last judged to fit before the date: it may have been outgrown by the date or not. */
  readonly between: number;
  /** Judged to fit on or after the date. */
  readonly fitted: number;
  /** Replaced, changed or not seen since: nobody knows. Not among the shares. */
  readonly unknown: number;
  /** Least share outgrown by the date (none of those between), and the most (all of them); null without any judged. */
  readonly share: number | null;
  readonly mostShare: number | null;
  /** Wilson 95 % interval about both: its low end for the least share, its high end for the most. */
  readonly low: number;
  readonly high: number;
}

export interface HeldAgainstVerdicts {
  /** Devices with a forecast that counts; one changed by hand counts again. */
  readonly devices: number;
  /** Of them by a forecast made for a day long past, from the record as it stood then. */
  readonly lookedBack: number;
  /** Of them judged outgrown. */
  readonly judged: number;
  readonly dates: readonly DateHeld[];
  /** Days from the middle date to the day judged outgrown (negative: judged before), ascending. */
  readonly distanceDays: readonly number[];
  /** Middle number of days between the last time it was known to fit and the day judged outgrown; null without any. */
  readonly visitGapDays: number | null;
}

/** A forecast counts where its nearest date lay at least so far ahead. */
export const AHEAD_DAYS = 30;

type Found = 'outgrown' | 'between' | 'fitted' | 'unknown' | 'ahead';
export interface Judged {
  readonly forecast: KeptForecast;
  readonly outgrownOn: IsoDate | null;
  /** Days judged to fit, ascending, and the day of the forecast before them. */
  readonly fits: readonly IsoDate[];
}

/**
 * Forecasts held against what clinicians judged later. Of each device the first forecast with all dates at least 30
 * days ahead counts, and again the first after each change made by hand: which one counts may not depend on how long
 * the device lasted. A verdict is given at a visit, so
 * the day of outgrowing lies between the last visit at which it fitted and the verdict (interval censoring).
 */
export function heldAgainstVerdicts(
  devices: readonly Device[],
  events: readonly DeviceEvent[],
  kept: readonly KeptForecast[],
  today: IsoDate,
): HeldAgainstVerdicts {
  return heldOf(judgedOf(devices, events, kept, today), today);
}

/** The forecasts that count of these devices, with what was judged of each: a part of the devices gives a part of them. */
export function judgedOf(
  devices: readonly Device[],
  events: readonly DeviceEvent[],
  kept: readonly KeptForecast[],
  today: IsoDate,
): Judged[] {
  const byDevice = groupBy(kept, (f) => f.deviceId);
  const eventsOf = groupBy(events, (e) => e.deviceId);
  return devices.flatMap((device) => {
    const own = (eventsOf.get(device.id) ?? []).filter((e) => e.date <= today).toSorted(byDate);
    const forecasts = (byDevice.get(device.id) ?? []).toSorted(byDay);
    return judgedSpans(device, own, forecasts);
  });
}

export function heldOf(judged: readonly Judged[], today: IsoDate): HeldAgainstVerdicts {
  const outgrown = judged.filter((j) => j.outgrownOn !== null);
  const distances = outgrown.flatMap(({ forecast: { p50 }, outgrownOn }) =>
    p50 ? [daysBetween(p50, outgrownOn!)] : [],
  );
  return {
    devices: judged.length,
    lookedBack: judged.filter((j) => j.forecast.madeOn).length,
    judged: outgrown.length,
    dates: [
      dateHeld(0.1, judged, (f) => f.p10, today),
      dateHeld(0.5, judged, (f) => f.p50, today),
      dateHeld(0.9, judged, (f) => f.p90, today),
    ],
    distanceDays: distances.toSorted((a, b) => a - b),
    visitGapDays: median(outgrown.map((j) => daysBetween(j.fits[j.fits.length - 1], j.outgrownOn!))),
  };
}

const byDay = (a: KeptForecast, b: KeptForecast) => a.today.localeCompare(b.today);
const byDate = (a: DeviceEvent, b: DeviceEvent) => a.date.localeCompare(b.date);
const counts = (f: KeptForecast) =>
  f.outcome === 'forecast' && f.p10 !== null && daysBetween(f.today, f.p10) >= AHEAD_DAYS;

/** Days on which something made another device of it: room made by hand, or a new one delivered in its place. */
function changes(device: Device, events: readonly DeviceEvent[]): IsoDate[] {
  const { fittedDate } = device;
  return events
    .filter(
      (e) =>
        (e.kind === 'adjusted' && e.adjustment !== 'side-bar' && e.adjustment !== 'relocated-joint') ||
        (e.kind === 'delivered' && fittedDate !== null && e.date > fittedDate),
    )
    .map((e) => e.date);
}

/** A device between two such changes: its first forecast that counts, and what was judged from then to the next change. */
function judgedSpans(
  device: Device,
  events: readonly DeviceEvent[],
  forecasts: readonly KeptForecast[],
): Judged[] {
  const starts: (IsoDate | null)[] = [null, ...new Set(changes(device, events))];
  return starts.flatMap((start, i): Judged[] => {
    const end = starts[i + 1] ?? null;
    const forecast = forecasts.find(
      (f) => (start === null || f.today >= start) && (end === null || f.today < end) && counts(f),
    );
    if (!forecast) return [];
    const verdicts = events.filter(
      (e) => e.verdict !== null && e.date > forecast.today && (end === null || e.date <= end),
    );
    const outgrownOn = verdicts.find((e) => e.verdict === 'outgrown')?.date ?? null;
    const fits = verdicts
      .filter((e) => e.verdict !== 'outgrown' && (outgrownOn === null || e.date < outgrownOn))
      .map((e) => e.date);
    return [{ forecast, outgrownOn, fits: [forecast.today, ...fits] }];
  });
}

function found({ outgrownOn, fits }: Judged, date: IsoDate | null, today: IsoDate): Found {
  if (date === null || date > today) return 'ahead';
  if (outgrownOn && outgrownOn <= date) return 'outgrown';
  if (fits[fits.length - 1] >= date) return 'fitted';
  return outgrownOn ? 'between' : 'unknown';
}

function dateHeld(
  chance: number,
  judged: readonly Judged[],
  dateOf: (f: KeptForecast) => IsoDate | null,
  today: IsoDate,
): DateHeld {
  const all = judged.map((j) => found(j, dateOf(j.forecast), today));
  const count = (what: Found) => all.filter((f) => f === what).length;
  const [outgrown, between, fitted] = [count('outgrown'), count('between'), count('fitted')];
  const n = outgrown + between + fitted;
  return {
    chance,
    outgrown,
    between,
    fitted,
    unknown: count('unknown'),
    share: n === 0 ? null : outgrown / n,
    mostShare: n === 0 ? null : (outgrown + between) / n,
    low: wilsonInterval(outgrown, n).low,
    high: wilsonInterval(outgrown + between, n).high,
  };
}
