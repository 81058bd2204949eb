import { type MeasureId, measures } from '../../records/measure.js';
import type { Format } from '../parts/format.js';
import type { ExpectedSize } from './expected-sizes.js';

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
