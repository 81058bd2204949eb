import { isIsoDate } from '../../records/dates.js';
import { type MeasureId, measures, type Side } from '../../records/measure.js';
import type { NewReading } from '../../store/contract.js';
import type { Format } from '../parts/format.js';
import type { ExpectedSize } from './expected-sizes.js';
import { type SizeUnit, sizeUnits, typedSize } from './typed-size.js';
import { expectedText, fieldName } from './visit-page.js';

/** Further from its expectation than this many standard deviations, a reading must be confirmed by a person. */
const CONFIRM_BEYOND_SD = 4;

export interface TypedVisit {
  readonly date: string;
  readonly unit: SizeUnit;
  readonly observer: string;
  readonly typed: Record<string, string>;
  readonly readings: NewReading[];
  readonly errors: Record<string, string>;
  readonly doubts: Record<string, string>;
}

/** A submitted visit form: readings in mm and kg, and for each field that is wrong or doubtful the reason. */
export function readVisit(
  body: Readonly<Record<string, string>>,
  sizes: readonly ExpectedSize[],
  birthDate: string,
  today: string,
  format: Format,
): TypedVisit {
  const unit = sizeUnits.find((u) => u === body.unit) ?? 'mm';
  const date = body.date ?? '';
  const errors: Record<string, string> = {};
  const doubts: Record<string, string> = {};
  const typed: Record<string, string> = {};
  const readings: NewReading[] = [];
  if (!isIsoDate(date)) errors.date = 'Give the day as year-month-day.';
  else if (date < birthDate || date > today)
    errors.date = `The day must lie between birth and today (${format.date(today)}).`;
  for (const size of sizes) {
    const name = fieldName(size.measure, size.side);
    const text = (body[name] ?? '').trim();
    if (text === '') continue;
    typed[name] = text;
    const value = typedSize(text, size.measure, unit);
    const { unit: own, plausible } = measures[size.measure];
    if (value === null) errors[name] = 'Not a number with a unit known here (mm, cm, in; kg, lb).';
    else if (value < plausible[0] || value > plausible[1])
      errors[name] = `${value} ${own} is impossible; ${plausible[0]} to ${plausible[1]} ${own} are accepted.`;
    else {
      if (size.expected !== null && size.sd !== null) {
        const away = Math.abs(value - size.expected) / size.sd;
        if (away > CONFIRM_BEYOND_SD)
          doubts[name] =
            `${value} ${own} is far from what is expected (${expectedText(size, format)}). Check unit, side and digits.`;
      }
      readings.push({
        measure: size.measure as MeasureId,
        side: size.side as Side,
        value,
        entered: /[a-z"]/i.test(text) || own === 'kg' ? text : `${text} ${unit}`,
      });
    }
  }
  if (readings.length === 0 && Object.keys(errors).length === 0)
    errors.date = 'No reading was typed: give at least one.';
  return { date, unit, observer: (body.observer ?? '').slice(0, 80), typed, readings, errors, doubts };
}
