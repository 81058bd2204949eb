import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lmsSizeAtZ, lmsZScore } from '../../src/statistics/lms.js';

// Source: CDC growth charts, data files page (cdc.gov/growthcharts/cdc-data-files.htm): 'a 9-month-old male who
// weighs 9.7 kg' has z 0.207, and the 5th centile of his age (z -1.645) is 7.90 kg. Read as quoted in public
// repositories on 2026-11-25.
const nineMonthBoy = { l: -0.1600954, m: 9.476500305, s: 0.11218624 };

test("CDC's worked example: 9.7 kg is z 0.207", () => {
  expect(lmsZScore(nineMonthBoy, 9.7)).toBeCloseTo(0.207, 3);
});

test("CDC's worked example: the 5th centile is 7.90 kg", () => {
  expect(lmsSizeAtZ(nineMonthBoy, -1.645)).toBeCloseTo(7.9, 2);
});

const anyLms = fc.record({
  l: fc.double({ min: -6, max: 6, noNaN: true }),
  m: fc.double({ min: 1, max: 2000, noNaN: true }),
  s: fc.double({ min: 0.02, max: 0.3, noNaN: true }),
});

test('a size at a z has that z, however extreme', () => {
  fc.assert(
    fc.property(anyLms, fc.double({ min: -20, max: 20, noNaN: true }), (lms, z) => {
      expect(lmsZScore(lms, lmsSizeAtZ(lms, z))).toBeCloseTo(z, 6);
    }),
  );
});

test('a size is finite, positive and never falls as z rises, however extreme', () => {
  fc.assert(
    fc.property(anyLms, fc.double({ min: -40, max: 40, noNaN: true }), (lms, z) => {
      const size = lmsSizeAtZ(lms, z);
      expect(size).toBeGreaterThan(0);
      expect(Number.isFinite(size)).toBe(true);
      expect(lmsSizeAtZ(lms, z + 0.5)).toBeGreaterThanOrEqual(size);
    }),
  );
});

test('a very heavy waist keeps a sane size and z-score where the power alone has none', () => {
  const eightYearOld = { l: -3.6, m: 553, s: 0.087 };
  expect(lmsSizeAtZ(eightYearOld, 4) / lmsSizeAtZ(eightYearOld, 3)).toBeLessThan(2.6);
  expect(lmsZScore(eightYearOld, 4 * 553)).toBeGreaterThan(3.19);
});

test('near L = 0 the power goes over into the logarithm without a step', () => {
  const at = (l: number) => lmsZScore({ l, m: 100, s: 0.1 }, 123);
  for (const l of [1e-7, -1e-7, 1e-9, -1e-9, 1e-12]) expect(at(l)).toBeCloseTo(at(0), 6);
  const size = (l: number) => lmsSizeAtZ({ l, m: 100, s: 0.1 }, 2.3);
  for (const l of [1e-7, -1e-7, 1e-9, -1e-9, 1e-12]) expect(size(l)).toBeCloseTo(size(0), 5);
});
