import { dayNumber } from '../../records/dates.js';
import { deviceHistory } from '../../records/device-history.js';
import { type Series, seriesKey } from '../../records/measure.js';
import { dimensionLimits, wearerOf } from '../../rules/dimension-limits.js';
import { roomLeft } from '../../rules/room-left.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainSeries, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { detectable, historyOf, type Visit } from './history-of.js';

/** A reading this near the cast counts as the size at the cast, days. */
const NEAR_CAST_DAYS = 45;
/** Readings older than this say nothing of today, days. */
const RECENT_DAYS = 200;

/**
 * Dimensions of a worn device that no growth curve follows (malleolar width, the hand): the reading at the cast is held
 * against the latest. It asks for a look and an adjustment; it never sets a date and never ends a device.
 */
export function uncurvedFlags(input: FlagInput): Flag[] {
  const { record, rules, today, plans } = input;
  return record.devices
    .filter((d) => d.status === 'worn')
    .flatMap((device) => {
      const rule = rules.get(device.family);
      if (!rule) return [];
      const followed = plans.find((p) => p.device.id === device.id)?.limits ?? [];
      const limits = dimensionLimits(rule, device, record.events, wearerOf(record)).filter(
        (l) => !followed.some((f) => seriesKey(f.series) === seriesKey(l.series)),
      );
      const { castDate } = deviceHistory(device, record.events);
      const castDay = dayNumber(castDate);
      const todayDay = dayNumber(today);
      const ends = new Map<string, { atCast: Visit; now: Visit }>();
      for (const { series } of limits) {
        const pair = readingsOf(input, series, castDay, todayDay);
        if (pair) ends.set(seriesKey(series), pair);
      }
      const sizes = (which: 'atCast' | 'now') =>
        new Map([...ends].map(([key, pair]) => [key, pair[which].value]));
      return roomLeft(limits, sizes('atCast'), sizes('now'), today).flatMap((room) => {
        const pair = ends.get(seriesKey(room.series))!;
        const real = room.grownMm > detectable(pair.now.error, pair.atCast.error);
        if (room.roomMm >= 0 || !real) return [];
        const seen = `${plainSeries(room.series)} has grown ${wholeMm(room.grownMm)} since the cast, ${wholeMm(-room.roomMm)} more than the device takes.`;
        const id = `uncurved-${room.series.measure}-${room.series.side}-${device.id}`;
        return [
          flag(input, id, 'check', cautions.uncurved, seen, { series: room.series, deviceId: device.id }),
        ];
      });
    });
}

function readingsOf(input: FlagInput, series: Series, castDay: number, today: number) {
  const visits =
    historyOf(input, [series.measure]).find((h) => seriesKey(h.series) === seriesKey(series))?.visits ?? [];
  const atCast = visits
    .filter((v) => Math.abs(v.day - castDay) <= NEAR_CAST_DAYS)
    .sort((a, b) => Math.abs(a.day - castDay) - Math.abs(b.day - castDay))[0];
  const now = visits.at(-1);
  if (!atCast || !now || now.day <= atCast.day || today - now.day > RECENT_DAYS) return null;
  return { atCast, now };
}
