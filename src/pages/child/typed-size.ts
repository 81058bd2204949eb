import { readNumber } from '../../exchange/csv/read-number.js';
import { type MeasureId, measures } from '../../records/measure.js';
import { isLengthUnit, toBaseUnit, unitNamed } from '../../records/units.js';

export const sizeUnits = ['mm', 'cm', 'inch'] as const;
export type SizeUnit = (typeof sizeUnits)[number];

/** A typed angle, degrees: typedAngle('40°') = 40, typedAngle('') = null; NaN where it is no number. */
export const typedAngle = (text: string): number | null =>
  text === '' ? null : (readNumber(text.replace(/\s*°$/, '')) ?? Number.NaN);

/**
 * What a person typed into a size field, in the measure's own unit: typedSize('17,5 cm', 'foot_length', 'mm') = 175.
 * A unit behind the number beats the form's. Null where it is no number with a unit of this measure.
 */
export function typedSize(text: string, measure: MeasureId, unit: SizeUnit): number | null {
  const parts = /^\s*([\d.,'’\s]+?)\s*([a-z]+|["″])?\s*$/i.exec(text);
  const number = parts && readNumber(parts[1]);
  if (!parts || number === null) return null;
  const weight = measures[measure].unit === 'kg';
  const usual = weight ? 'kg' : unit;
  const given = parts[2] ? unitNamed(parts[2]) : usual;
  if (given === null || isLengthUnit(given) === weight) return null;
  return Math.round(toBaseUnit(number, given) * 10) / 10;
}
