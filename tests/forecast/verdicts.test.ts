import { describe, expect, it } from 'vitest';
import { verdictLikelihood } from '../../src/forecast/device/verdict-evidence.js';
import { normalCdf } from '../../src/statistics/normal-cdf.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
const boy = () =>
  buildChild(TODAY, 8, { sex: 'male' })
    .series('foot_length', 'left', [
      [14, 189],
      [8, 195],
      [2, 200],
    ])
    .device('solid-afo', 'left', 8);

describe('fit verdicts as evidence on the device’s real limit', () => {
  it('says what each verdict excludes, and that the four of them exhaust what can be said but for looseness', () => {
    const room = (roomMm: number) => [{ roomMm, tightWithinMm: 3, judgementSdMm: 1.5 }];
    expect(verdictLikelihood('outgrown', room(-6))).toBeGreaterThan(0.95);
    expect(verdictLikelihood('good', room(-6))).toBeLessThan(0.01);
    expect(verdictLikelihood('good', room(8))).toBeGreaterThan(0.95);
    expect(verdictLikelihood('tight', room(1.5))).toBeGreaterThan(verdictLikelihood('tight', room(8)));
    for (const r of [-4, 0, 2, 5, 9]) {
      const sum = (['outgrown', 'tight', 'good'] as const).reduce(
        (s, v) => s + verdictLikelihood(v, room(r)),
        0,
      );
      expect(sum).toBeCloseTo(0.98 + 3 * 0.005, 9);
    }
  });

  // Rasmussen & Williams 2006, Gaussian Processes for Machine Learning, eq. 3.85: for x ~ N(m, v) and a probit likelihood
  // Phi(x / s), the mean of x given success is m + v phi(z) / (Phi(z) sqrt(s^2 + v)), z = m / sqrt(s^2 + v). From memory.
  it('moves the belief about a limit as the closed form of a probit observation does', () => {
    const [m, sd, s] = [-1, 1.5, 1.5];
    let weight = 0;
    let mean = 0;
    for (let x = m - 9; x <= m + 9; x += 0.01) {
      const prior = Math.exp(-(((x - m) / sd) ** 2) / 2);
      const like = verdictLikelihood('outgrown', [{ roomMm: -x, tightWithinMm: 3, judgementSdMm: s }]);
      const success = (like - 0.005) / 0.98;
      weight += prior * success;
      mean += prior * success * x;
    }
    const root = Math.hypot(s, sd);
    const z = m / root;
    const phi = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    expect(mean / weight).toBeCloseTo(m + (sd * sd * phi) / (normalCdf(z) * root), 4);
  });

  it('a good verdict puts the date off, a tight one brings it forward, against no verdict', () => {
    const none = boy().assess().forecasts[0];
    const good = boy().event('verdict', 0, { verdict: 'good', measure: 'foot_length' }).assess().forecasts[0];
    const tight = boy().event('verdict', 2, { verdict: 'tight', measure: 'foot_length' }).assess()
      .forecasts[0];
    expect(good.p50! > none.p50!).toBe(true);
    expect(tight.p50! < none.p50!).toBe(true);
    expect(good.probabilityOutgrownNow).toBeLessThan(none.probabilityOutgrownNow);
  });

  it('believes a reviewer who says outgrown, whatever the measurements say, and flags the disagreement', () => {
    const said = boy().event('verdict', 1, { verdict: 'outgrown' }).assess();
    expect(said.forecasts[0].outcome).toBe('already-outgrown');
    expect(said.forecasts[0].probabilityOutgrownNow).toBe(1);
    expect(said.forecasts[0].explanation).toMatch(/Judged outgrown.*skin/);
    const early = boy().event('verdict', 7, { verdict: 'outgrown', measure: 'foot_length' }).assess();
    expect(early.flags.some((f) => f.id.startsWith('verdict-mismatch'))).toBe(true);
    const agreeing = boy().event('verdict', 7, { verdict: 'good', measure: 'foot_length' }).assess();
    expect(agreeing.flags.some((f) => f.id.startsWith('verdict-mismatch'))).toBe(false);
  });

  it('a verdict of outgrown on a joint with travel left asks for the bar to be moved', () => {
    const { forecasts } = buildChild(TODAY, 7, { sex: 'female' })
      .series('knee_height', 'left', [
        [7, 300],
        [0, 313],
      ])
      .series('foot_length', 'left', [
        [7, 180],
        [0, 183],
      ])
      .device('kafo', 'left', 7, { extensionRangeMm: { knee_height: 36 } })
      .event('verdict', 0, { verdict: 'outgrown', measure: 'knee_height' })
      .assess();
    expect(forecasts[0].outcome).toBe('forecast');
    expect(forecasts[0].adjustments?.[0].dueNow).toBe(true);
  });
});
