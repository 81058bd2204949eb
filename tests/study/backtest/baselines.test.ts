import { describe, expect, it } from 'vitest';
import { baselineRules } from '../../../src/study/backtest/baselines.js';
import { noisyVisit, withNoise } from '../../../src/study/backtest/clinic-noise.js';
import { knownAt } from '../../../src/study/backtest/growth-record.js';
import { referenceSizeCurves } from '../../../src/study/backtest/reference-curves.js';
import { trueCurve } from '../../../src/study/backtest/true-curve.js';
import { inventedRecord } from './invented-records.js';

const curves = referenceSizeCurves();
const rules = baselineRules({ ...curves, cohort: curves.published });
const known = {
  sex: 'male' as const,
  visits: [
    { ageYears: 9, sizes: { stature: 1340, leg_length: 640 } },
    { ageYears: 10, sizes: { stature: 1400, leg_length: 672 } },
  ],
};

describe('plain methods, worked by hand', () => {
  it('carries the last velocity on: 672 + 32 mm a year', () => {
    expect(rules['last-velocity'](known, 'leg_length', 0.5)).toBeCloseTo(688, 6);
    expect(rules['last-velocity'](known, 'leg_length', 2)).toBeCloseTo(736, 6);
  });

  // CDC growth charts 2000, stature for age, boys (Kuczmarski 2002, lms.csv): M 138.8234 cm at 120.5 months,
  // 143.7304 cm at 132.5 months.
  it('adds the published increment of stature against CDC 2000', () => {
    const from = { sex: 'male' as const, visits: [{ ageYears: 120.5 / 12, sizes: { stature: 1400 } }] };
    expect(rules['published-increment'](from, 'stature', 1)).toBeCloseTo(1400 + 1437.304 - 1388.234, 1);
  });

  it('stays on the published centile: with S constant and L = 1 (UK 1990 legs) size scales with the median', () => {
    const m = (age: number) => curves.published('leg_length', 'male', age).m;
    expect(rules['published-centile'](known, 'leg_length', 1)).toBeCloseTo((672 * m(11)) / m(10), 3);
  });
});

describe('what a forecast is given', () => {
  it('is the visit at the birthday and the yearly ones before it, nothing between or after', () => {
    const given = knownAt(inventedRecord('a', 'female'), 11);
    expect(given?.visits.map((v) => v.ageYears)).toEqual([9, 10, 11]);
    expect(knownAt(inventedRecord('a', 'female'), 2)?.visits.map((v) => v.ageYears)).toEqual([2]);
    expect(knownAt(inventedRecord('a', 'female'), 19)).toBeNull();
  });

  it('carries noise of the stated SD: 4 mm stature, 5 mm leg length, none on weight', () => {
    const visit = { ageYears: 10, sizes: { stature: 1400, leg_length: 670, weight: 30 } };
    const many = Array.from({ length: 4000 }, (_, i) => noisyVisit(`c${i}`, visit, 1).sizes);
    const sd = (pick: (s: (typeof many)[number]) => number) => {
      const mean = many.reduce((sum, s) => sum + pick(s), 0) / many.length;
      return Math.sqrt(many.reduce((sum, s) => sum + (pick(s) - mean) ** 2, 0) / (many.length - 1));
    };
    // Standard error of an SD from 4000 draws: 1.1 %; five of them are allowed.
    expect(Math.abs(sd((s) => s.stature!) / 4 - 1)).toBeLessThan(0.056);
    expect(Math.abs(sd((s) => s.leg_length!) / 5 - 1)).toBeLessThan(0.056);
    expect(sd((s) => s.weight!)).toBe(0);
  });

  it('has the same noise for the same seed and another for another', () => {
    const record = inventedRecord('a', 'male');
    expect(withNoise(record, 'clinic', 3)).toEqual(withNoise(record, 'clinic', 3));
    expect(withNoise(record, 'clinic', 3)).not.toEqual(withNoise(record, 'clinic', 4));
  });
});

describe('the truth', () => {
  const curve = trueCurve(inventedRecord('a', 'male'), 'stature')!;
  it('is the record itself at a row, interpolated between rows, and unknown outside', () => {
    expect(curve.truth(9.5)).toMatchObject({ recorded: true });
    expect(curve.truth(5.5)).toMatchObject({ recorded: false });
    expect(curve.truth(18.4)).toBeNull();
    expect(curve.truth(1.5)).toBeNull();
  });
  it('does not read across a gap of more than a year', () => {
    const record = inventedRecord('a', 'male');
    const gap = { ...record, visits: record.visits.filter((v) => v.ageYears < 9 || v.ageYears > 11) };
    expect(trueCurve(gap, 'stature')?.truth(10)).toBeNull();
  });
  it('lies between the rows around it', () => {
    const rows = inventedRecord('a', 'male').visits.map((v) => v.sizes.stature!);
    for (let i = 0; i < 5; i++) {
      const at = curve.at(2.5 + i);
      expect(at).toBeGreaterThan(rows[i]);
      expect(at).toBeLessThan(rows[i + 1]);
    }
  });
});
