/** Every device of a child on one time axis: being made, worn, expected to be outgrown; casts, visits and events as marks. */

import type { DeviceForecast } from '../forecast/contract.js';
import type { DeviceDecision } from '../recall/contract.js';
import type { ChildRecord } from '../records/caseload.js';
import { dayNumber, type IsoDate, isoDate } from '../records/dates.js';
import type { DeviceEvent } from '../records/device.js';
import { deviceLabel } from './device-label.js';
import { fillSpec, type Row, type Spec } from './fill-spec.js';
import { linesThatFit } from './lines-that-fit.js';
import { readableDate, timeLocale } from './time-locale.js';

export interface DeviceTimelineInput {
  readonly record: Pick<ChildRecord, 'devices' | 'events'>;
  readonly forecasts: readonly DeviceForecast[];
  readonly decisions?: readonly Pick<DeviceDecision, 'deviceId' | 'castBy'>[];
  readonly today: IsoDate;
  readonly language?: string;
  readonly title?: string;
  /** Width of the plot; 250 suits a telephone held upright. */
  readonly widthPx?: number;
}

const WIDE_PX = 720;
const stages = ['being made', 'worn', 'outgrown here, 8 in 10'] as const;
const eventWords: Partial<Record<DeviceEvent['kind'], string>> = {
  adjusted: 'adjusted',
  verdict: 'fit judged',
  broken: 'broken',
};
const moments = ['cast by', 'adjusted', 'fit judged', 'broken'] as const;
const momentShapes = ['diamond', 'triangle-up', 'circle', 'cross'];

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the rows of one picture, device by device
export function deviceTimeline(input: DeviceTimelineInput): Spec {
  const { record, forecasts, decisions = [], today, language = 'en', widthPx = WIDE_PX } = input;
  const devices = record.devices.toSorted((a, b) => a.castDate.localeCompare(b.castDate));
  const seen = new Set<string>();
  const names = new Map(
    devices.map((d) => {
      // The day of the cast tells devices of a family apart; two of one side cast on a day are numbered.
      let name = `${deviceLabel(d)}, ${readableDate(d.castDate, language)}`;
      for (let nth = 2; seen.has(name); nth++) name = `${name.replace(/ \(\d+\)$/, '')} (${nth})`;
      seen.add(name);
      return [d.id, name];
    }),
  );
  const spans: Row[] = [];
  const marks: Row[] = [];
  const mark = (device: string | undefined, moment: string, date: IsoDate, note = '') =>
    device &&
    marks.push({ device, moment, date, hint: `${moment}, ${readableDate(date, language)} ${note}`.trim() });
  for (const d of devices) {
    const device = names.get(d.id) as string;
    const ended = record.events.find((e) => e.deviceId === d.id && e.kind === 'retired')?.date;
    const worn = d.fittedDate;
    const until = ended ?? (d.status === 'retired' ? nextCast(devices, d) : undefined) ?? today;
    spans.push({ device, stage: stages[0], from: d.castDate, to: worn ?? later(today, d.castDate) });
    if (worn) spans.push({ device, stage: stages[1], from: worn, to: later(until, worn) });
    const forecast = forecasts.find((f) => f.deviceId === d.id);
    if (forecast?.p10)
      spans.push({
        device,
        stage: stages[2],
        from: forecast.p10,
        to: forecast.p90 ?? forecast.dates.at(-1) ?? forecast.p10,
      });
  }
  for (const e of record.events) {
    const word = eventWords[e.kind];
    if (word) mark(names.get(e.deviceId), word, e.date, e.verdict ?? '');
  }
  for (const d of decisions) if (d.castBy) mark(names.get(d.deviceId), moments[0], d.castBy);
  const dates = [today, ...spans.flatMap((s) => [s.from, s.to]), ...marks.map((m) => m.date)] as string[];
  const sorted = dates.toSorted();
  const [from] = sorted;
  const to = sorted[sorted.length - 1];
  const years = (dayNumber(to) - dayNumber(from)) / 365.25;
  const used = moments.filter((m) => marks.some((x) => x.moment === m));
  return fillSpec(
    'timeline',
    {
      title: input.title ?? 'Devices',
      subtitle: linesThatFit(
        'The last bar runs from the 10 % to the 90 % date of being outgrown. An estimate; check fit and skin.',
        widthPx,
      ),
      widthPx,
      legendColumns: widthPx < WIDE_PX ? 2 : 4,
      description: `Timeline of ${devices.length} devices`,
      dateTitle: 'Date',
      dateFormat: years > 4 ? '%Y' : '%b %Y',
      dateTicks: years > 4 ? 'year' : { interval: 'month', step: years > 2 ? 6 : 3 },
      devices: [...names.values()],
      stages,
      moments: used,
      momentShapes: used.map((m) => momentShapes[moments.indexOf(m)]),
      hintTitle: '',
    },
    {
      frame: [{ date: from }, { date: isoDate(dayNumber(to) + 30) }],
      spans,
      moments: marks,
      today: [{ date: today, label: 'today' }],
    },
    timeLocale(language),
  );
}

const later = (a: IsoDate, b: IsoDate) => (a > b ? a : b);

/** A retired device without an end date is taken to end when its successor was fitted. */
function nextCast(devices: ChildRecord['devices'], d: ChildRecord['devices'][number]): IsoDate | undefined {
  return devices.find((n) => n.family === d.family && n.side === d.side && n.castDate > d.castDate)?.castDate;
}
