import type { DeviceForecast } from '../forecast/contract.js';
import { dayNumber } from '../records/dates.js';
import type { MeasureId, Side } from '../records/measure.js';
import type { Row } from './fill-spec.js';
import type { Frame } from './limit-rows.js';

/** How far along the prediction the pace is written, where curves have spread and readings end. */
const ALONG = 0.45;

/** 'Left 12 mm a year' beside each curve: above the upper one, below the lower, so that the two never touch. */
export function paceRows(
  forecasts: readonly DeviceForecast[],
  fan: readonly Row[],
  sides: readonly Side[],
  measure: MeasureId,
  { span, today, sideWord, words }: Frame,
): Row[] {
  const at = dayNumber(today) + ALONG * (span.to - dayNumber(today));
  const ends = sides.flatMap((side) => {
    const room = forecasts
      .flatMap((f) => f.room)
      .find((r) => r.series.measure === measure && r.series.side === side);
    const own = fan.filter((f) => f.side === sideWord(side));
    const there = own.find((f) => dayNumber(String(f.date)) >= at) ?? own.at(-1);
    if (room?.paceMmAYear === undefined || !there) return [];
    return [{ side: sideWord(side), there, mm: Math.max(0, Math.round(room.paceMmAYear)) }];
  });
  const upper = ends.toSorted((a, b) => Number(b.there.middle) - Number(a.there.middle))[0];
  return ends.map(({ side, there, mm }) => ({
    date: there.date,
    size: side === upper.side ? there.high : there.low,
    dy: side === upper.side ? -9 : 11,
    side,
    label: words.pace(side, mm),
  }));
}
