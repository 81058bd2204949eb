import { expect, test } from 'vitest';
import { fromBaseUnit, toBaseUnit, unitNamed } from '../../src/records/units.js';

// Source: NIST Special Publication 811, appendix B: inch = 25.4 mm, foot = 304.8 mm, pound = 0.45359237 kg, exactly.
test.each([
  [17.5, 'cm', 175],
  [1.42, 'm', 1420],
  [6.9, 'inch', 175.26],
  [1, 'ft', 304.8],
  [44, 'lb', 19.95806428],
  [3346.4, 'g', 3.3464],
  [182, 'mm', 182],
] as const)('%s %s is %s', (value, unit, base) => {
  expect(toBaseUnit(value, unit)).toBe(base);
  expect(fromBaseUnit(base, unit)).toBeCloseTo(value, 10);
});

test('units as people write them', () => {
  for (const word of ['in', 'Inches', '"', 'in.', ' INCH ']) expect(unitNamed(word)).toBe('inch');
  for (const word of ['cm', 'CM', 'centimetres', 'cm.']) expect(unitNamed(word)).toBe('cm');
  for (const word of ['lbs', 'Pounds']) expect(unitNamed(word)).toBe('lb');
  for (const word of ['', 'stone', 'toString', 'constructor']) expect(unitNamed(word)).toBeNull();
});
