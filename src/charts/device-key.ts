/** The devices of a growth chart by number: the chart carries the numbers, the lines under its title say what they are. */

import type { DeviceForecast } from '../forecast/contract.js';
import { castByOf, type DeviceDecision } from '../recall/contract.js';
import { dayNumber, type IsoDate, isoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import type { MeasureId, Side } from '../records/measure.js';
import { measures } from '../records/measure.js';
import { fullAtMm } from '../rules/room-left.js';
import { actionNames } from '../words/action-names.js';
import { deviceLabel, familyLabel } from './device-label.js';
import type { Row } from './fill-spec.js';
import type { Frame } from './limit-rows.js';
import { readableDate, readableMonth } from './time-locale.js';

/** What the clinic wants of a device, and by when; marked on its bar. */
export interface Wanted {
  readonly deviceId: string;
  readonly date: IsoDate;
  readonly label: string;
}

/** Number tags stand this far apart, so that no two ever touch. */
const TAG_PX = 18;
const BAR_PX = 16;
/** Half the width of the mark of an action. */
const MARK_PX = 7;

/** '1 KAFO, left, cast 29 Aug 2025: full at 642 mm; outgrown Dec 2026 to Oct 2028; cast by 22 Nov 2026'. */
export function keyLines(keyed: readonly KeyedDevice[], measure: MeasureId, frame: Frame): string[] {
  const { language } = frame;
  return keyed.map(({ number, forecast, device, action }) => {
    const name = device
      ? `${deviceLabel(device)}, cast ${readableDate(device.castDate, language)}`
      : familyLabel(forecast.family);
    const full = forecast.room
      .filter((r) => r.series.measure === measure && r.limitMm > 0)
      .map((r) => {
        const side = device?.side === 'both' ? `${frame.sideWord(r.series.side).toLowerCase()} ` : '';
        return `${side}full at ${fullAtMm(r.limitMm)} ${measures[measure].unit}`;
      });
    const limits = forecast.drivers.some((d) => d.series.measure === measure);
    const dates = limits ? outgrownDates(forecast, frame) : '';
    const due = action && `◆ ${action.label} ${readableDate(action.date, language)}`;
    return `${number}  ${name}: ${[...full, dates, due].filter(Boolean).join('; ')}`;
  });
}

function outgrownDates({ p10, p50, p90 }: DeviceForecast, { today, language, words }: Frame): string {
  const month = (date: IsoDate) => readableMonth(date, language);
  if (p10 === null) return '';
  if (p90 !== null && p90 <= today) return `outgrown since about ${month(p50 ?? p90)}`;
  if (p10 <= today) return p90 ? `outgrown by ${month(p90)}, perhaps already` : 'perhaps outgrown already';
  return `${words.outgrown} ${p90 ? words.between(month(p10), month(p90)) : words.after(month(p10))}`;
}

/** The limit lines' numbers, at the right edge, each in a column of its own. */
export function limitTags(keyed: readonly KeyedDevice[], measure: MeasureId, frame: Frame): Row[] {
  const { span, widthPx, heightPx, sizeDomain, sideWord } = frame;
  const [low, high] = sizeDomain;
  const dayAt = (px: number) => isoDate(Math.round(span.from + (px / widthPx) * (span.to - span.from)));
  const lines = keyed.flatMap(({ number, forecast }) =>
    forecast.room
      .filter((r) => r.series.measure === measure && r.limitMm > 0)
      .map((r) => ({ number, side: r.series.side as Side, limitMm: r.limitMm })),
  );
  return lines.map(({ number, side, limitMm }, column) => ({
    date: dayAt(widthPx - 4 - (lines.length - 1 - column) * TAG_PX),
    y: heightPx * (1 - (limitMm - low) / (high - low)),
    side: sideWord(side),
    label: String(number),
    align: 'right',
  }));
}

/** The chart's devices in reading order, each with its number and what is wanted of it. */
export const keyedDevices = (
  forecasts: readonly DeviceForecast[],
  devices: readonly Device[],
  actions: readonly Wanted[],
) =>
  forecasts.map((forecast, i) => ({
    number: i + 1,
    forecast,
    device: devices.find((d) => d.id === forecast.deviceId),
    /** Day the clinic's action is wanted by, with its name: 'cast by'. */
    action: actions.find((a) => a.deviceId === forecast.deviceId) ?? null,
  }));
type KeyedDevice = ReturnType<typeof keyedDevices>[number];

/** What is wanted of each device and by when: the action of the day, else the cast to come. */
export const wantedOf = (decisions: readonly DeviceDecision[]): Wanted[] =>
  decisions.flatMap((d): Wanted[] => {
    const { deviceId, action, dueBy } = d;
    if (action !== 'none' && dueBy) return [{ deviceId, date: dueBy, label: `${actionNames[action]} by` }];
    const castBy = castByOf(d);
    return castBy ? [{ deviceId, date: castBy, label: `${actionNames.cast} by` }] : [];
  });

const barY = (number: number, heightPx: number): number => heightPx - 9 - (number - 1) * BAR_PX;

/** One bar a device from the 10 % to the 90 % date, above the time axis, with its number before it. */
export function keyedBars(
  keyed: readonly KeyedDevice[],
  measure: MeasureId,
  { span, heightPx, widthPx }: Frame,
): { bands: Row[]; labels: Row[] } {
  const days = (px: number) => (px / widthPx) * (span.to - span.from);
  const within = (date: IsoDate) => isoDate(Math.max(span.from, Math.min(span.to, dayNumber(date))));
  // A mark of the action that stands where the number would is not written over.
  const before = (from: IsoDate, mark: number | null) =>
    mark !== null && Math.abs(dayNumber(from) - days(TAG_PX / 2) - mark) < days(TAG_PX)
      ? within(isoDate(Math.round(Math.min(mark, dayNumber(from)) - days(MARK_PX))))
      : from;
  const bars = keyed.flatMap(({ number, action, forecast: { p10, p50, p90, drivers } }) => {
    if (p10 === null || !drivers.some((d) => d.series.measure === measure)) return [];
    const from = within(p10);
    const y = barY(number, heightPx);
    const tag = before(from, action && dayNumber(action.date));
    return [{ number, tag, from, to: within(p90 ?? isoDate(span.to)), middle: p50 && within(p50), y }];
  });
  return {
    bands: bars.map(({ number: _number, tag: _tag, ...bar }) => bar),
    labels: bars.map(({ number, tag, y }) => ({ date: tag, y, label: String(number), align: 'right' })),
  };
}

/** A mark on each device's row on the day its action is wanted, where that lies on the chart. */
export const actionRows = (keyed: readonly KeyedDevice[], { span, heightPx, language }: Frame): Row[] =>
  keyed.flatMap(({ number, action }) => {
    const day = action && dayNumber(action.date);
    if (!action || day === null || day < span.from || day > span.to) return [];
    const hint = `${number}: ${action.label} ${readableDate(action.date, language)}`;
    return [{ date: action.date, y: barY(number, heightPx), hint }];
  });
