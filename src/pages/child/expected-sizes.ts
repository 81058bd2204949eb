import type { ChildPosterior } from '../../growth/contract.js';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber, type IsoDate } from '../../records/dates.js';
import {
  type MeasureId,
  measureIds,
  measures,
  type Series,
  type Side,
  seriesOf,
  technicalErrorAt,
} from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { Format } from '../parts/format.js';

/** What the child's own record leads one to read on a day, technical error of the reading included. */
export interface ExpectedSize {
  readonly measure: MeasureId;
  readonly side: Side;
  readonly expected: number | null;
  readonly sd: number | null;
  readonly last: { readonly value: number; readonly date: IsoDate } | null;
}

/** Every series a visit can enter, with its expectation on `date`. */
export function expectedSizes(
  record: ChildRecord,
  posterior: ChildPosterior | null,
  date: IsoDate,
): ExpectedSize[] {
  const ageYears = decimalAgeYears(record.child.birthDate, date);
  const asked = measureIds.flatMap((measure) => seriesOf(measure));
  // Of measures the model does not know there is no prediction.
  const known = posterior ? asked.filter((s) => posterior.knows(s.measure)) : [];
  const predicted = posterior?.predictOn(known, dayNumber(date)) ?? [];
  const foreseen = new Map(known.map((s, i) => [s, predicted[i]]));
  return asked.map((series): ExpectedSize => {
    const { measure, side } = series;
    const found = foreseen.get(series);
    const prediction = found && Number.isFinite(found.mean) && Number.isFinite(found.sd) ? found : null;
    return {
      measure,
      side,
      expected: prediction?.mean ?? null,
      sd: prediction ? Math.hypot(prediction.sd, technicalErrorAt(measure, ageYears)) : null,
      last: lastReading(record.measurements, series),
    };
  });
}

/** The last reading of a series, up to a day where one is said. */
export function lastReading(
  readings: readonly Measurement[],
  { measure, side }: Series,
  by?: IsoDate,
): ExpectedSize['last'] {
  const own = readings.filter((m) => m.measure === measure && m.side === side && !(by && m.date > by));
  const last = own.toSorted((a, b) => a.date.localeCompare(b.date)).at(-1);
  return last ? { value: last.value, date: last.date } : null;
}

/** Measures this child's devices are limited by or that were taken before, in the order of the list; stature always, and the
 * foot of whom nothing is known. */
export function usualMeasures(record: ChildRecord, rules: FitRules): MeasureId[] {
  const limiting = record.devices
    .filter((d) => d.status !== 'retired')
    .flatMap((d) => rules.get(d.family)?.dimensions.map((x) => x.measure) ?? []);
  const taken = record.measurements.map((m) => m.measure);
  const own = [...limiting, ...taken];
  const wanted = new Set<MeasureId>(['stature', ...(own.length > 0 ? own : ['foot_length' as const])]);
  return measureIds.filter((m) => wanted.has(m));
}

/** Nine in ten readings lie within this many standard deviations of what is expected. */
export const RANGE_SD = 1.645;

export const fieldName = (measure: MeasureId, side: string): string => `${measure}.${side}`;

/** 'about 202 to 212 mm': nine in ten readings would lie there. */
export function expectedText(size: ExpectedSize, format: Format): string {
  const { unit } = measures[size.measure];
  const digits = unit === 'kg' ? 1 : 0;
  if (size.expected === null || size.sd === null) return '';
  const reach = RANGE_SD * size.sd;
  return `about ${format.number(size.expected - reach, digits)} to ${format.number(size.expected + reach, digits)} ${unit}`;
}

/** 'last 203 mm on 4 May 2026; today about 202 to 212 mm'. */
export function fieldHint(size: ExpectedSize, format: Format): string {
  const { unit } = measures[size.measure];
  const last = size.last
    ? `last ${format.number(size.last.value, unit === 'kg' ? 1 : 0)} ${unit}, ${format.date(size.last.date)}`
    : '';
  const expected = expectedText(size, format);
  return [last, expected && `now ${expected}`].filter(Boolean).join('; ');
}
