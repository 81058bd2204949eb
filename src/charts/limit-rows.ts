/** The size at which a device is outgrown, and the dates between which that is expected, as rows with their labels. */

import type { DeviceForecast } from '../forecast/contract.js';
import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import type { MeasureId, Side } from '../records/measure.js';
import type { ChartWords } from './chart-words.js';
import type { Row } from './fill-spec.js';
import { readableMonth } from './time-locale.js';

export interface Frame {
  readonly span: { readonly from: DayNumber; readonly to: DayNumber };
  readonly sizeDomain: readonly number[];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly today: IsoDate;
  readonly language: string;
  readonly words: ChartWords;
  readonly sideWord: (side: Side) => string;
}

const LINE_PX = 16;
/** Mean width of a bold character at the label's size, px. */
const CHARACTER_PX = 7.4;

const xPx = (date: IsoDate, { span, widthPx }: Frame): number =>
  ((dayNumber(date) - span.from) / (span.to - span.from)) * widthPx;
const fitsLeft = (date: IsoDate, label: string, frame: Frame): boolean =>
  xPx(date, frame) > label.length * CHARACTER_PX + 8;
const fitsRight = (date: IsoDate, label: string, frame: Frame): boolean =>
  frame.widthPx - xPx(date, frame) > label.length * CHARACTER_PX + 8;

/** One line per limiting series and device; a family's chart says in words what the line is. */
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
  if (audience === 'clinician') return { limits, limitLabels: [] };
  const [low, high] = frame.sizeDomain;
  const label = frame.words.braceRoom;
  // One label for the child: left of the line is empty paper, since the child was smaller then.
  const limitLabels = limits.slice(0, 1).map((limit) => {
    const line = frame.heightPx * (1 - (limit.limitMm - low) / (high - low));
    if (fitsLeft(limit.from, label, frame))
      return { date: limit.from, y: line, side: limit.side, label, align: 'right' };
    return fitsRight(limit.from, label, frame)
      ? { date: limit.from, y: line - 4, side: limit.side, label, align: 'left' }
      : { date: limit.to, y: line - 12, side: limit.side, label, align: 'right' };
  });
  return { limits, limitLabels };
}

/**
 * A family's band from the 10 % to the 90 % date along the time axis, open to the right past the horizon. Its sentence
 * stands beside it; where there is no room for that, the dates stand there and the sentence is told above the chart.
 */
export function outgrownRows(
  forecasts: readonly DeviceForecast[],
  measure: MeasureId,
  frame: Frame,
): { bands: Row[]; labels: Row[]; told: string[] } {
  const driven = forecasts.filter((f) => f.p10 && f.drivers.some((d) => d.series.measure === measure));
  const bands: Row[] = [];
  const labels: Row[] = [];
  const told = new Set<string>();
  const within = (date: IsoDate) => isoDate(Math.min(frame.span.to, dayNumber(date)));
  for (const [i, f] of driven.entries()) {
    const y = frame.heightPx - 5 - i * LINE_PX;
    const from = within(f.p10 as IsoDate);
    const month = (date: IsoDate) =>
      date <= frame.today ? frame.words.now : readableMonth(date, frame.language);
    const dates = f.p90
      ? frame.words.between(month(f.p10 as IsoDate), month(f.p90))
      : frame.words.after(month(f.p10 as IsoDate));
    const to = within(f.p90 ?? isoDate(frame.span.to));
    bands.push({ from, to, y });
    const beside = (label: string): Row | null => {
      if (fitsLeft(from, label, frame)) return { date: from, y, label, align: 'right' };
      return fitsRight(to, label, frame) ? { date: to, y, label, align: 'left' } : null;
    };
    const sentence = `${frame.words.braceShould}: ${dates}`;
    const whole = beside(sentence);
    if (!whole) told.add(sentence);
    labels.push(
      whole ??
        beside(dates) ?? {
          date: isoDate(frame.span.from),
          y: y - driven.length * LINE_PX,
          label: dates,
          align: 'left',
        },
    );
  }
  return { bands, labels, told: [...told] };
}
