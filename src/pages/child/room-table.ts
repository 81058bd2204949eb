import type { CastQuestion } from '../../forecast/inverse/growth-from-cast.js';
import { roomByMonth } from '../../forecast/inverse/room-by-month.js';
import { decimalAgeYears } from '../../records/age.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type Series, seriesKey } from '../../records/measure.js';
import { usualAllowance } from '../../rules/dimension-limits.js';
import { type FitRules, isBuiltIn, sideBarOf } from '../../rules/fit-rule.js';
import type { DeviceView } from '../../service/child-view/load-child.js';
import { byDriver } from './room-bars.js';

export const oddsAsked = [0.8, 0.9, 0.95] as const;
export const monthsAsked: readonly number[] = Array.from({ length: 22 }, (_, i) => i + 3);
export const usually = { months: 9, odds: 0.9 } as const;
const DRAWS = 600;

/** One dimension of one side of one device: what room it would need by months and odds, beside what is in force. */
export interface RoomRow {
  readonly deviceId: string;
  readonly series: Series;
  /** Allowance in force: the device's own, else the family's, mm. */
  readonly inForceMm: number;
  readonly usualMm: number;
  /** Whether more room is had by making the next one larger. */
  readonly builtIn: boolean;
  /** Travel of the side bar and its hole spacing, mm; null where no bar follows this dimension. */
  readonly bar: { readonly travelMm: number; readonly holeMm: number | null } | null;
  /** oddsAsked x monthsAsked, whole mm, rounded up. */
  readonly neededMm: readonly (readonly number[])[];
}

/** What the next devices of a pair (or the one device) would need if cast today; what the room in force lasts shortest for on top. */
export function roomTable(
  child: Pick<CastQuestion, 'posterior' | 'model' | 'measurements'>,
  views: readonly DeviceView[],
  rules: FitRules,
  birthDate: IsoDate,
  today: IsoDate,
  seed: number,
): RoomRow[] {
  const series = views.flatMap((v) => v.forecast.room.map((r) => r.series));
  if (series.length === 0) return [];
  const question = { ...child, series, castDate: today, draws: DRAWS, seed };
  const needed = roomByMonth(question, monthsAsked, oddsAsked, liftsOf(views, rules));
  const ageYears = decimalAgeYears(birthDate, today);
  const rows = byDriver({
    room: views.flatMap((v) => v.forecast.room),
    drivers: views.flatMap((v) => v.forecast.drivers),
  }).flatMap(({ series: s }): RoomRow[] => {
    const view = views.find((v) => v.forecast.room.some((r) => seriesKey(r.series) === seriesKey(s)));
    const dimension = view && rules.get(view.device.family)?.dimensions.find((d) => d.measure === s.measure);
    const mm = needed.get(seriesKey(s));
    if (!view || !dimension || !mm) return [];
    const usualMm = usualAllowance(dimension, view.device, ageYears);
    const bar = sideBarOf(dimension);
    return [
      {
        deviceId: view.device.id,
        series: s,
        usualMm,
        builtIn: isBuiltIn(dimension, view.device.footplate),
        inForceMm: view.device.allowancesMm[s.measure] ?? usualMm,
        bar: bar
          ? {
              travelMm: view.device.extensionRangeMm[s.measure] ?? 0,
              holeMm: bar.stepMm?.value ?? null,
            }
          : null,
        neededMm: mm.map((row) => row.map((x) => Math.max(0, Math.ceil(x - 1e-9)))),
      },
    ];
  });
  const odds = oddsAsked.indexOf(usually.odds);
  /** Left and right of a dimension stay together. */
  const shortest = (row: RoomRow) =>
    Math.min(
      ...rows.filter((r) => r.series.measure === row.series.measure).map((r) => monthsInForce(r, odds) ?? 0),
    );
  return rows.toSorted((a, b) => shortest(a) - shortest(b));
}

/** Heights that a bar of a joint further down lifts, with the travel it has now. */
function liftsOf(views: readonly DeviceView[], rules: FitRules) {
  const lifts = new Map<string, { by: Series; travelMm: number }>();
  for (const { device, forecast } of views)
    for (const lower of rules.get(device.family)?.dimensions ?? [])
      for (const raised of sideBarOf(lower)?.raises ?? [])
        for (const { series } of forecast.room.filter((r) => r.series.measure === raised))
          lifts.set(seriesKey(series), {
            by: { measure: lower.measure, side: series.side },
            travelMm: device.extensionRangeMm[lower.measure] ?? 0,
          });
  return lifts;
}

/**
 * The room chosen for the next one: a bar follows beyond the allowance in whole holes; a plate or shell is made larger.
 * What is made to the cast (a joint axis, an edge) keeps the allowance in force: asking for more would only call a worse fit good.
 */
export function chosenRoom(row: RoomRow, neededMm: number): { allowanceMm: number; barMm: number | null } {
  if (row.bar === null) return { allowanceMm: row.builtIn ? neededMm : row.inForceMm, barMm: null };
  const beyond = Math.max(0, neededMm - row.inForceMm);
  const hole = row.bar.holeMm ?? 1;
  return { allowanceMm: row.inForceMm, barMm: Math.ceil(beyond / hole) * hole };
}

/** Months that the room in force lasts at these odds; null where it does not last the fewest asked, the most where longer. */
export function monthsInForce(row: RoomRow, odds: number): number | null {
  const room = row.inForceMm + (row.bar?.travelMm ?? 0);
  const last = row.neededMm[odds].findLastIndex((mm) => mm <= room);
  return last < 0 ? null : monthsAsked[last];
}

/** The device asked about, and its twin on the other side where both are worn. */
export const pairOf = (device: Device, views: readonly DeviceView[]): DeviceView[] =>
  views.filter(
    ({ device: d }) =>
      d.id === device.id ||
      (d.status === 'worn' &&
        device.status === 'worn' &&
        d.family === device.family &&
        d.side !== device.side),
  );
