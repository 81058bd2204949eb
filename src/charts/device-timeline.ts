/** Every device of a child on one time axis: being made, worn, expected to be outgrown; casts, visits and events as marks. */

import type { DeviceForecast } from '../forecast/contract.js';
import { castByOf, type DeviceDecision } from '../recall/contract.js';
import type { ChildRecord } from '../records/caseload.js';
import { DAYS_A_YEAR, dayNumber, type IsoDate, isoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import { inReadingOrder } from '../records/device-order.js';
import { deviceLabel } from './device-label.js';
import { fillSpec, type Row, type Spec } from './fill-spec.js';
import { linesThatFit } from './lines-that-fit.js';
import { dateAxis, readableDate, timeLocale } from './time-locale.js';

export interface DeviceTimelineInput {
  readonly record: Pick<ChildRecord, 'devices' | 'events'>;
  readonly forecasts: readonly DeviceForecast[];
  readonly decisions?: readonly Pick<DeviceDecision, 'deviceId' | 'castBy' | 'reason'>[];
  readonly today: IsoDate;
  /** Width of the plot of the growth chart above it; 250 suits a telephone held upright. */
  readonly widthPx?: number;
}

/** As wide as a growth chart with its axis and centiles: one above the other they are read in the same letters. */
const WIDE_PX = 880;
const AXIS_PX = 70;
const stages = ['being made', 'worn', 'outgrown here, 8 in 10'] as const;
const eventWords: Partial<Record<DeviceEvent['kind'], string>> = {
  adjusted: 'adjusted',
  verdict: 'fit judged',
  broken: 'broken',
};
const moments = ['cast by', 'adjusted', 'fit judged', 'broken'] as const;
/** The end of a span that runs on past the forecast; it is drawn to the edge. */
const OPEN = '';
const OPEN_DAYS = 180;
const momentShapes = ['diamond', 'triangle-up', 'circle', 'cross'];

/**
 * The day of the cast tells devices of a family apart; two of one side cast on a day are numbered. On a narrow chart a long
 * name is cut, so that the day comes first.
 */
function namesOf(devices: readonly Device[], narrow: boolean): ReadonlyMap<string, string> {
  const seen = new Set<string>();
  const nameOf = (d: Device) => {
    const said = [deviceLabel(d), readableDate(d.castDate, 'en')];
    const plain = (narrow ? said.reverse() : said).join(', ');
    let name = plain;
    for (let nth = 2; seen.has(name); nth++) name = `${plain} (${nth})`;
    seen.add(name);
    return name;
  };
  return new Map(devices.map((d) => [d.id, nameOf(d)]));
}

/** Being made, worn, and when it is probably outgrown. */
function spansOf(d: Device, devices: readonly Device[], { record, forecasts, today }: DeviceTimelineInput) {
  const { castDate, fittedDate: worn } = d;
  const ended = record.events.find((e) => e.deviceId === d.id && e.kind === 'retired')?.date;
  const until = ended ?? (d.status === 'retired' ? nextFitted(devices, d) : undefined) ?? today;
  const forecast = forecasts.find((f) => f.deviceId === d.id);
  const spans = [{ stage: stages[0] as string, from: castDate, to: worn ?? later(today, castDate) }];
  if (worn) spans.push({ stage: stages[1], from: worn, to: later(until, worn) });
  if (forecast?.p10) {
    const { p10, p90 } = forecast;
    spans.push({ stage: stages[2], from: p10, to: p90 ?? OPEN });
  }
  return spans;
}

export function deviceTimeline(input: DeviceTimelineInput): Spec {
  const { record, decisions = [], today } = input;
  const widthPx = input.widthPx ? input.widthPx + AXIS_PX : WIDE_PX;
  const devices = record.devices.toSorted(
    (a, b) => a.castDate.localeCompare(b.castDate) || inReadingOrder(a, b),
  );
  const names = namesOf(devices, widthPx < WIDE_PX);
  const spans = devices.flatMap((d) =>
    spansOf(d, devices, input).map((span): Row => ({ device: names.get(d.id) as string, ...span })),
  );
  const marks: Row[] = [];
  const mark = (device: string | undefined, moment: string, date: IsoDate, note = '') =>
    device &&
    marks.push({ device, moment, date, hint: `${moment}, ${readableDate(date, 'en')} ${note}`.trim() });
  for (const e of record.events) {
    const word = eventWords[e.kind];
    if (word) mark(names.get(e.deviceId), word, e.date, e.verdict ?? '');
  }
  for (const d of decisions) {
    const castBy = castByOf(d);
    if (castBy) mark(names.get(d.deviceId), moments[0], castBy);
  }
  const ends = spans.map((s) => (s.to === OPEN ? isoDate(dayNumber(s.from as IsoDate) + OPEN_DAYS) : s.to));
  const dates = [today, ...spans.map((s) => s.from), ...ends, ...marks.map((m) => m.date)] as string[];
  const sorted = dates.toSorted();
  const [from] = sorted;
  const to = sorted[sorted.length - 1];
  const edge = isoDate(dayNumber(to) + 30);
  const used = moments.filter((m) => marks.some((x) => x.moment === m));
  return fillSpec(
    'timeline',
    {
      subtitle: linesThatFit(
        'The last bar runs from the 10 % to the 90 % date of being outgrown. An estimate; check fit and skin.',
        widthPx,
      ),
      widthPx,
      legendColumns: widthPx < WIDE_PX ? 1 : 4,
      description: `Timeline of ${devices.length} devices`,
      ...dateAxis((dayNumber(to) - dayNumber(from)) / DAYS_A_YEAR),
      devices: [...names.values()],
      stages,
      moments: used,
      momentShapes: used.map((m) => momentShapes[moments.indexOf(m)]),
    },
    {
      frame: [{ date: from }, { date: edge }],
      spans: spans.map((s) => ({ ...s, to: s.to === OPEN ? edge : s.to })),
      moments: marks,
      today: [{ date: today, label: 'today' }],
    },
    timeLocale('en'),
  );
}

const later = (a: IsoDate, b: IsoDate) => (a > b ? a : b);

/** A retired device without an end date is taken to end when its successor was fitted. */
function nextFitted(devices: readonly Device[], d: Device): IsoDate | undefined {
  const next = devices.find((n) => n.family === d.family && n.side === d.side && n.castDate > d.castDate);
  return next?.fittedDate ?? next?.castDate;
}
