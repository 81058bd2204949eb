import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../../src/statistics/normal-cdf.js';
import { normalQuantile } from '../../../src/statistics/normal-quantile.js';
import { randomStream } from '../../../src/statistics/random-stream.js';
import { score } from '../../../src/study/backtest/score.js';
import { seByChild } from '../../../src/study/backtest/summarise.js';

const normal = (mean: number, sd: number) => ({
  pointMm: mean,
  quantile: (p: number) => mean + sd * normalQuantile(p),
});

describe('scores of one forecast', () => {
  // Gneiting & Raftery (2007), J Am Stat Assoc 102:359, equation 21:
  // CRPS(N(m, s2), y) = s { z (2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi) }, z = (y - m)/s.
  const closedForm = (mean: number, sd: number, y: number) => {
    const z = (y - mean) / sd;
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    return sd * (z * (2 * normalCdf(z) - 1) + 2 * density - 1 / Math.sqrt(Math.PI));
  };
  for (const truth of [700, 703, 712, 680])
    it(`gives the CRPS of a normal forecast to 1 % at ${truth} against Gneiting & Raftery 2007, eq. 21`, () => {
      const found = score(normal(700, 8), truth).crpsMm;
      expect(found / closedForm(700, 8, truth)).toBeCloseTo(1, 1.7);
    });

  it('finds the stated coverage when the truth comes from the forecast', () => {
    const chance = randomStream(7);
    const scores = Array.from({ length: 4000 }, () => score(normal(500, 6), 500 + 6 * chance.normal()));
    const share = (pick: (s: (typeof scores)[number]) => boolean) =>
      scores.filter(pick).length / scores.length;
    // Binomial standard error at 4000 draws: .0063 and .0047; four of them are allowed.
    expect(Math.abs(share((s) => s.in80) - 0.8)).toBeLessThan(0.026);
    expect(Math.abs(share((s) => s.in90) - 0.9)).toBeLessThan(0.02);
  });
});

describe('standard error by child', () => {
  it('is the SD of the children over the root of their number when each has as many forecasts', () => {
    const base = {
      sex: 'male' as const,
      ageYears: 9,
      measure: 'stature' as const,
      horizonYears: 1,
      method: 'm',
      recorded: true,
      crpsMm: 0,
      in80: true,
      in90: true,
    };
    // Three children, two forecasts each; means 2, 4, 9 mm: SD 3.6056, over root 3 = 2.0817.
    const errors: [string, number][] = [
      ['a', 1],
      ['a', 3],
      ['b', 4],
      ['b', 4],
      ['c', 8],
      ['c', 10],
    ];
    const rows = errors.map(([childId, errorMm]) => ({ ...base, childId, errorMm }));
    expect(seByChild(rows, (s) => s.errorMm)).toBeCloseTo(2.0817, 3);
  });
});
