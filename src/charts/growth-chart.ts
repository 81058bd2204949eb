/**
 * One child's one measure over time: reference centiles, readings left and right, the 80 % prediction fan, the size
 * at which each device is outgrown and the band of dates in which that is expected. Draws what it is given.
 */

import type { DeviceForecast } from '../forecast/contract.js';
import { type ChildPosterior, GROSS } from '../growth/contract.js';
import { decimalAgeYears } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import {
  addDaysIso,
  DAYS_A_YEAR,
  type DayNumber,
  dayNumber,
  type IsoDate,
  isoDate,
} from '../records/dates.js';
import { type MeasureId, measures, type Series, type Side } from '../records/measure.js';
import { plainMeasure } from '../words/measure-names.js';
import { type CentileAt, CURVE_STEPS, centileRows } from './centile-rows.js';
import { chartWords } from './chart-words.js';
import { actionRows, keyedBars, keyedDevices, keyLines, limitTags, type Wanted } from './device-key.js';
import { fillSpec, type Row, type Spec } from './fill-spec.js';
import { limitRows, outgrownRows } from './limit-rows.js';
import { linesThatFit, titleLines } from './lines-that-fit.js';
import { sideLabels } from './side-labels.js';
import { dateAxis, readableDate, timeLocale } from './time-locale.js';

export interface GrowthChartInput {
  readonly record: Pick<ChildRecord, 'child' | 'measurements' | 'devices'>;
  readonly measure: MeasureId;
  readonly today: IsoDate;
  /** Null when there are too few readings: then no fan is drawn. */
  readonly posterior: ChildPosterior | null;
  readonly forecasts: readonly DeviceForecast[];
  /** Null where no reference suits this child. */
  readonly centileAt: CentileAt | null;
  readonly audience?: 'clinician' | 'family';
  readonly language?: string;
  /** Width of the plot; 340 suits a telephone held upright. */
  readonly widthPx?: number;
  readonly actions?: readonly Wanted[];
  /** A line under the title, for a caution such as 'population charts do not suit this child'. */
  readonly caution?: string;
}

const SHORTEST_FAN_STEP_DAYS = 14;
const SHORTEST_AHEAD_DAYS = 400;
const LONGEST_AHEAD_DAYS = 1000;
/** Readings further apart than this are not joined by a line. */
const LONGEST_JOIN_DAYS = 450;
/** In a narrower plot the legend's two entries stand under each other. */
const NARROW_PX = 400;
const PLOT = { clinician: 420, family: 380 } as const;

const order: readonly Side[] = ['left', 'right', 'none'];
const look: Record<Side, { colour: string; dash: number[]; shape: string }> = {
  left: { colour: '#0b4f7d', dash: [1, 0], shape: 'circle' },
  right: { colour: '#b35900', dash: [7, 4], shape: 'triangle-up' },
  none: { colour: '#0b4f7d', dash: [1, 0], shape: 'circle' },
};

const doubtedIn = (posterior: GrowthChartInput['posterior']): ReadonlySet<string> =>
  new Set(posterior?.suspicions.filter((s) => s.probability > GROSS).map((s) => s.measurementId));

/** From the smallest to the largest size with room about them; `below`: how much more of it below. */
function domainOf(sizes: readonly number[], below: number): [number, number] {
  if (sizes.length === 0) return [0, 1];
  const [low, high] = [Math.min(...sizes), Math.max(...sizes)];
  const pad = Math.max(4, (high - low) * 0.08);
  return [Math.floor(low - pad * below), Math.ceil(high + pad)];
}

// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: what each layer leaves out for a family stands beside it
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the layers of one picture, in the order in which they are drawn
export function growthChart(input: GrowthChartInput): Spec {
  const { record, measure, today, posterior, audience = 'clinician', language = 'en', widthPx = 720 } = input;
  const words = chartWords(language);
  const narrow = widthPx < NARROW_PX;
  const family = audience === 'family';
  const { unit, label } = measures[measure];
  const readings = record.measurements.filter((m) => m.measure === measure);
  const forecasts = input.forecasts.filter((f) => f.room.some((r) => r.series.measure === measure));
  const limiting = forecasts.flatMap((f) => f.room.filter((r) => r.series.measure === measure));
  const seen = new Set([...readings.map((m) => m.side), ...limiting.map((r) => r.series.side)]);
  const sides = order.filter((side) => seen.has(side));
  const sideWord = (side: Side) => ({ left: words.left, right: words.right, none: words.child })[side];

  const now = dayNumber(today);
  const from = Math.min(now, ...readings.map((m) => dayNumber(m.date))) - 120;
  const latestBand = Math.max(now, ...forecasts.map((f) => dayNumber(f.p90 ?? today)));
  const to = now + Math.min(LONGEST_AHEAD_DAYS, Math.max(SHORTEST_AHEAD_DAYS, latestBand - now + 120));
  const span = { from, to };

  const doubted = doubtedIn(posterior);
  // A family is not shown a reading nobody believes yet; the clinician sees it crossed out.
  const shown = family ? readings.filter((m) => !doubted.has(m.id)) : readings;
  const marks = sides
    .flatMap((side) => joinedReadings(shown, side))
    .map(({ reading: { date, value, side, id }, stretch }) => ({
      date,
      value,
      side: sideWord(side),
      stretch,
      doubted: doubted.has(id),
      hint: `${sideWord(side)}: ${value} ${unit}, ${readableDate(date, language)}`,
    }));
  const fan = sides.flatMap((side) =>
    posterior?.knows(measure)
      ? fanRows(posterior, { measure, side }, readings, today, to, sideWord(side))
      : [],
  );
  const centiles = input.centileAt
    ? centileRows(record.child, measure, span, input.centileAt, audience, words, narrow)
    : { bands: [], lines: [], labels: [] };

  const sizes = [
    ...marks.map((m) => m.value),
    ...fan.flatMap((f) => [f.low as number, f.high as number]),
    ...centiles.bands.flatMap((b) => [b.low as number, b.high as number]),
    ...limiting.map((r) => r.limitMm),
  ];
  const { sex } = record.child;
  const whose = narrow && sex !== 'unknown' ? `, ${sex === 'female' ? words.girls : words.boys}.` : '.';
  const centilesNote = centiles.lines.length > 0 ? words.centilesNote.replace(/\.$/, whose) : '';
  const said = family
    ? { title: words.familyTitle(plainMeasure(measure, language)), size: words.size, note: words.familyNote }
    : { title: label, size: label, note: `${words.predictionNote} ${centilesNote}`.trim() };
  const sizeDomain = domainOf(sizes, family ? 3 : 1.6);
  const frame = { span, sizeDomain, widthPx, heightPx: PLOT[audience], today, language, words, sideWord };
  const keyed = family ? [] : keyedDevices(forecasts, record.devices, input.actions ?? []);
  const { limits, limitLabels } = limitRows(forecasts, record.devices, measure, frame, audience);
  const bars = keyedBars(keyed, measure, frame);
  const outgrown = family
    ? outgrownRows(forecasts, measure, frame)
    : { bands: bars.bands, labels: bars.labels, told: [] };

  return fillSpec(
    family ? 'family' : 'growth',
    {
      title: titleLines(said.title, widthPx),
      subtitle: [
        input.caution ?? '',
        said.note,
        ...keyLines(keyed, measure, frame),
        ...outgrown.told,
      ].flatMap((text) => linesThatFit(text, widthPx)),
      widthPx,
      description: `${label}: ${readings.length} readings, ${fan.length > 0 ? 'with' : 'without'} a prediction`,
      dateTitle: words.dateAndAge,
      ...dateAxis((to - from) / DAYS_A_YEAR),
      sizeTitle: `${said.size}, ${unit === 'mm' ? words.mm : unit}`,
      sizeDomain,
      sides: sides.map(sideWord),
      sideColours: sides.map((s) => look[s].colour),
      sideDashes: sides.map((s) => look[s].dash),
      sideShapes: sides.map((s) => look[s].shape),
      legendDirection: narrow ? 'vertical' : 'horizontal',
      legendLabels: sideLabels(forecasts, measure, sides, sideWord, words),
    },
    {
      frame: [{ date: isoDate(from) }, { date: isoDate(to) }],
      centileBands: centiles.bands,
      centileLines: centiles.lines,
      centileLabels: centiles.labels,
      birthdays: birthdayRows(record.child.birthDate, span),
      outgrown: outgrown.bands,
      notes: outgrown.labels,
      ...(family
        ? { limitLabels }
        : {
            shade: outgrown.bands.slice(0, 1),
            actions: actionRows(keyed, frame),
            limitLabels: limitTags(keyed, measure, frame),
            hatch: fan.filter((f) => f.side === sideWord('right')),
          }),
      limits,
      fan,
      joined: marks.filter((m) => !m.doubted),
      marks,
      doubts: marks.filter((m) => m.doubted),
      today: [{ date: today, label: words.today }],
    },
    timeLocale(language),
  );
}

type Reading = ChildRecord['measurements'][number];

/** Readings of one side in date order, numbered by stretch: a long gap starts a new stretch. */
function joinedReadings(readings: readonly Reading[], side: Side) {
  const own = readings.filter((m) => m.side === side).toSorted((a, b) => a.date.localeCompare(b.date));
  let stretch = 0;
  return own.map((reading, i) => {
    if (i > 0 && dayNumber(reading.date) - dayNumber(own[i - 1].date) > LONGEST_JOIN_DAYS) stretch += 1;
    return { reading, stretch: `${side}${stretch}` };
  });
}

function fanRows(
  posterior: ChildPosterior,
  series: Series,
  readings: readonly Reading[],
  today: IsoDate,
  to: DayNumber,
  side: string,
): Row[] {
  const last = readings.reduce((d, m) => (m.side === series.side && m.date > d ? m.date : d), '');
  const start = dayNumber(last || today);
  const step = Math.max(SHORTEST_FAN_STEP_DAYS, Math.ceil((to - start) / CURVE_STEPS));
  const days = Array.from({ length: Math.ceil((to - start) / step) + 1 }, (_, i) =>
    Math.min(to, start + i * step),
  );
  const prediction = posterior.predict(series, days);
  const [low, middle, high] = [0.1, 0.5, 0.9].map((p) => prediction.quantile(p));
  return days.map((day, i) => ({
    date: isoDate(day),
    low: low[i],
    middle: middle[i],
    high: high[i],
    side,
  }));
}

function birthdayRows(birthDate: IsoDate, span: { from: DayNumber; to: DayNumber }): Row[] {
  const firstAge = Math.max(0, Math.ceil(decimalAgeYears(birthDate, span.from)));
  const lastAge = Math.floor(decimalAgeYears(birthDate, span.to));
  return Array.from({ length: Math.max(0, lastAge - firstAge + 1) }, (_, i) => ({
    date: addDaysIso(birthDate, Math.round((firstAge + i) * DAYS_A_YEAR)),
    label: String(firstAge + i),
  }));
}
