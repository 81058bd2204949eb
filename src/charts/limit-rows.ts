/** The size at which a device is outgrown, and the dates between which that is expected, as rows with their labels. */
import type { Device } from '../devices/contract.js';
import type { DeviceForecast } from '../forecast/contract.js';
import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../measurements/dates.js';
import { type MeasureId, measures, type Side } from '../measurements/measure.js';
import type { ChartWords } from './chart-words.js';
import { deviceLabel, familyLabel } from './device-label.js';
import type { Row } from './fill-spec.js';
import { readableMonth } from './time-locale.js';

export interface Frame {
  readonly span: { readonly from: DayNumber; readonly to: DayNumber };
  readonly sizeDomain: readonly number[];
  readonly heightPx: number;
  readonly today: IsoDate;
  readonly language: string;
  readonly words: ChartWords;
  readonly sideWord: (side: Side) => string;
}

const LINE_PX = 16;
const WIDTH_PX = 720;
/** Mean width of a bold character at the label's size, px. */
const CHARACTER_PX = 7.4;

const fitsLeft = (date: IsoDate, label: string, { span }: Frame): boolean =>
  ((dayNumber(date) - span.from) / (span.to - span.from)) * WIDTH_PX > label.length * CHARACTER_PX + 8;

/** One line per limiting series and device; labels of lines that lie close are stacked, never overprinted. */
export function limitRows(
  forecasts: readonly DeviceForecast[],
  devices: readonly Device[],
  measure: MeasureId,
  frame: Frame,
  audience: 'clinician' | 'family',
): { limits: Row[]; limitLabels: Row[] } {
  const lines = forecasts
    .flatMap((f) =>
      f.room
        .filter((r) => r.series.measure === measure && r.limitMm > 0)
        .map((r) => ({ room: r, device: devices.find((d) => d.id === f.deviceId), family: f.family })),
    )
    .toSorted((a, b) => b.room.limitMm - a.room.limitMm);
  const limits = lines.map(({ room, device }) => ({
    side: frame.sideWord(room.series.side),
    from: isoDate(
      Math.max(frame.span.from, dayNumber(device?.fittedDate ?? device?.castDate ?? frame.today)),
    ),
    to: isoDate(frame.span.to),
    limitMm: room.limitMm,
  }));
  const y = (mm: number) => {
    const [low, high] = frame.sizeDomain;
    return frame.heightPx * (1 - (mm - low) / (high - low));
  };
  const text = ({ room, family }: (typeof lines)[number]) =>
    audience === 'family'
      ? frame.words.braceRoom
      : `${familyLabel(family)}${room.series.side === 'none' ? '' : `, ${frame.sideWord(room.series.side).toLowerCase()}`}: ${frame.words.limitAt} ${Math.round(room.limitMm)} ${measures[measure].unit}`;
  let next = Number.NEGATIVE_INFINITY;
  const limitLabels = limits.map((limit, i) => {
    const label = text(lines[i]);
    // Left of the line is empty paper, since the child was smaller then; a line that starts at the edge is labelled above.
    const align = fitsLeft(limit.from, label, frame) ? 'right' : 'left';
    const at = Math.max(y(limit.limitMm) - (align === 'left' ? 4 : 0), next);
    next = at + LINE_PX;
    return { date: limit.from, y: at, side: limit.side, label, align };
  });
  if (audience === 'family') return { limits, limitLabels: limitLabels.slice(0, 1) };
  return { limits, limitLabels };
}

/** One band per device from the 10 % to the 90 % date, stacked along the time axis; open to the right past the horizon. */
export function outgrownRows(
  forecasts: readonly DeviceForecast[],
  devices: readonly Device[],
  measure: MeasureId,
  frame: Frame,
  audience: 'clinician' | 'family',
): { bands: Row[]; labels: Row[] } {
  const driven = forecasts.filter((f) => f.p10 && f.drivers.some((d) => d.series.measure === measure));
  const bands: Row[] = [];
  const labels: Row[] = [];
  const within = (date: IsoDate) => isoDate(Math.min(frame.span.to, dayNumber(date)));
  for (const [i, f] of driven.entries()) {
    const y = frame.heightPx - 5 - i * LINE_PX;
    const from = within(f.p10 as IsoDate);
    const device = devices.find((d) => d.id === f.deviceId);
    const dates = f.p90
      ? frame.words.between(readableMonth(from, frame.language), readableMonth(f.p90, frame.language))
      : frame.words.after(readableMonth(from, frame.language));
    bands.push({ from, to: within(f.p90 ?? isoDate(frame.span.to)), middle: f.p50 && within(f.p50), y });
    const label =
      audience === 'family'
        ? `${frame.words.braceShould}: ${dates}`
        : `${device ? deviceLabel(device) : familyLabel(f.family)} ${frame.words.outgrown}: ${dates}`;
    const before = fitsLeft(from, label, frame);
    // Without room before the band, the label stands on top of it, from the left edge.
    labels.push(
      before
        ? { date: from, y, label, align: 'right' }
        : { date: isoDate(frame.span.from + 4), y: y - driven.length * LINE_PX, label, align: 'left' },
    );
  }
  return { bands, labels };
}
