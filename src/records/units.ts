/** Units at the edge: everything inside is mm and kg. Inch = 25.4 mm and pound = 0.45359237 kg exactly (1959 agreement). */

const MM = { mm: 1, cm: 10, m: 1000, inch: 25.4, ft: 304.8 } as const;
const KG = { kg: 1, g: 0.001, lb: 0.45359237 } as const;

export type LengthUnit = keyof typeof MM;
export type MassUnit = keyof typeof KG;
export type Unit = LengthUnit | MassUnit;

const WORDS: Readonly<Record<string, Unit>> = {
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  in: 'inch',
  inches: 'inch',
  '"': 'inch',
  '″': 'inch',
  feet: 'ft',
  foot: 'ft',
  kgs: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  gram: 'g',
  grams: 'g',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
};

/** unitNamed('Inches') = 'inch'; null for a word that is no unit here. */
export function unitNamed(text: string): Unit | null {
  const word = text.trim().toLowerCase().replace(/\.$/, '');
  if (Object.hasOwn(MM, word) || Object.hasOwn(KG, word)) return word as Unit;
  return Object.hasOwn(WORDS, word) ? WORDS[word] : null;
}

export const isLengthUnit = (unit: Unit): unit is LengthUnit => unit in MM;

/** Into mm for a length, kg for a mass; to a billionth, so that 17.5 cm is 175 mm. toBaseUnit(6.9, 'inch') = 175.26. */
export function toBaseUnit(value: number, unit: Unit): number {
  const factor = isLengthUnit(unit) ? MM[unit] : KG[unit];
  return factor === 1 ? value : Number((value * factor).toFixed(9));
}

/** What a size in mm or kg is in another unit of its kind. fromBaseUnit(175, 'cm') = 17.5. */
export function fromBaseUnit(value: number, unit: Unit): number {
  return value / (isLengthUnit(unit) ? MM[unit] : KG[unit]);
}

export const lengthUnits = Object.keys(MM) as LengthUnit[];
export const massUnits = Object.keys(KG) as MassUnit[];
