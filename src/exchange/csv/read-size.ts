import { type MeasureId, measures } from '../../records/measure.js';
import {
  isLengthUnit,
  lengthUnits,
  massUnits,
  toBaseUnit,
  type Unit,
  unitNamed,
} from '../../records/units.js';
import { readNumber } from './read-number.js';

export interface Size {
  /** mm, kg for weight. */
  readonly value: number;
  /** As typed with its unit, '' where that is mm (kg) already. */
  readonly entered: string;
}

const LONGEST = 60;

/**
 * A size out of a cell. The unit stands in the cell ('17,5 cm'), else in the unit column, the heading or the setting,
 * in this order in `unitsBeside`; two that contradict each other refuse the cell. A size outside what a body can have
 * is refused with the unit in which it would be possible.
 */
export function readSize(
  cell: string,
  measure: MeasureId,
  unitsBeside: readonly [column: string, heading: string, setting: string],
): Size | { readonly why: string; readonly accepted: string } {
  const { unit: base, plausible } = measures[measure];
  const units: readonly Unit[] = base === 'kg' ? massUnits : lengthUnits;
  const accepted = `a number with its unit, ${units.join(', ')}, between ${plausible.join(' and ')} ${base}`;
  const refuse = (why: string) => ({ why, accepted });
  if (cell === '') return refuse('is missing');
  if (cell.length > LONGEST) return refuse('is not a number');
  const [, digits, ownUnit] = /^([+\-−\d.,\s'’_]+?)\s*([\p{L}"″]+\.?)?$/u.exec(cell.trim()) ?? [];
  const value = digits === undefined ? null : readNumber(digits);
  if (value === null) return refuse('is not a number');
  const words = unitWords(ownUnit ?? '', unitsBeside, base);
  if (words.length === 0) {
    const places = 'say it in a unit column, in the heading (foot_length_left_cm) or in the cell (17,5 cm)';
    return { why: 'has no unit', accepted: `${accepted}; ${places}` };
  }
  const known = words.map(unitNamed);
  const unknown = words[known.indexOf(null)];
  if (unknown !== undefined) return refuse(`has the unknown unit "${unknown}"`);
  const [unit, ...others] = known as Unit[];
  const other = others.find((u) => u !== unit);
  if (other !== undefined) return refuse(`is said to be in ${unit} and in ${other}`);
  if (isLengthUnit(unit) !== (base === 'mm')) return refuse(`is given in ${unit}`);
  const size = toBaseUnit(value, unit);
  if (!(size >= plausible[0] && size <= plausible[1]))
    return refuse(impossible(value, unit, size, units, plausible, base));
  return { value: size, entered: unit === base ? '' : `${digits.trim()} ${unit}` };
}

/** Every unit that is said; the setting, which is of lengths, where none is. */
function unitWords(
  own: string,
  [column, heading, setting]: readonly [column: string, heading: string, setting: string],
  base: string,
): string[] {
  const said = [own, column, heading].filter((word) => word !== '');
  return said.length === 0 && base === 'mm' && setting !== '' ? [setting] : said;
}

function impossible(
  value: number,
  unit: Unit,
  size: number,
  units: readonly Unit[],
  [min, max]: readonly [number, number],
  base: string,
): string {
  const inBase = unit === base ? `${value} ${base}` : `${value} ${unit} (${round(size)} ${base})`;
  const fitting = units.filter((u) => toBaseUnit(value, u) >= min && toBaseUnit(value, u) <= max);
  const swapped = digitsSwapped(value).filter(
    (v) => toBaseUnit(v, unit) >= min && toBaseUnit(v, unit) <= max,
  );
  const guess = [
    ...swapped.map((v) => `${v} ${unit}`),
    ...fitting.map((u) =>
      u === base ? `${value} ${u}` : `${value} ${u} = ${round(toBaseUnit(value, u))} ${base}`,
    ),
  ].join(' or ');
  return `is ${inBase}, which no body has${guess ? `; was ${guess} meant` : ''}`;
}

const round = (size: number): number => Math.round(size * 10) / 10;

/** The number with two neighbouring digits in the other order: 81.9 -> 18.9. */
function digitsSwapped(value: number): number[] {
  const text = String(value);
  return [...text.slice(1)].flatMap((digit, i) =>
    /\d/.test(digit) && /\d/.test(text[i]) && digit !== text[i]
      ? [Number(text.slice(0, i) + digit + text[i] + text.slice(i + 2))]
      : [],
  );
}
