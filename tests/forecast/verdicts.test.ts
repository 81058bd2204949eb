import { describe, expect, it } from 'vitest';
import { deviationChance, drawDeviation } from '../../src/forecast/device/deviation.js';
import { daysBetween } from '../../src/records/dates.js';
import { normalCdf } from '../../src/statistics/normal-cdf.js';
import { randomStream } from '../../src/statistics/random-stream.js';
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

/** Mean of a Normal (0, s) above a: s phi(a/s) / (1 - Phi(a/s)). Johnson, Kotz & Balakrishnan 1994, Continuous Univariate Distributions 1, 13.10; from memory. */
function meanAbove(s: number, a: number): number {
  const phi = Math.exp(-((a / s) ** 2) / 2) / Math.sqrt(2 * Math.PI);
  return (s * phi) / normalCdf(-a / s);
}

describe('what a judgement leaves of a device’s own limit', () => {
  it.each([-3, 0, 1.5, 4])(
    'draws above %d mm have the mean of the truncated Normals, one in twenty of them wide',
    (a) => {
      const chance = randomStream(3);
      let sum = 0;
      let least = Number.POSITIVE_INFINITY;
      const n = 40_000;
      for (let i = 0; i < n; i++) {
        const x = drawDeviation(1.5, a, Number.POSITIVE_INFINITY, chance.uniform(), chance.uniform());
        least = Math.min(least, x);
        sum += x;
      }
      expect(least).toBeGreaterThanOrEqual(a);
      expect(sum / n).toBeCloseTo(0.95 * meanAbove(1.5, a) + 0.05 * meanAbove(4.5, a), 1);
      expect(deviationChance(1.5, a, Number.POSITIVE_INFINITY)).toBeCloseTo(
        0.95 * normalCdf(-a / 1.5) + 0.05 * normalCdf(-a / 4.5),
        12,
      );
    },
  );

  it('far beyond belief it stays at the bound and stays finite', () => {
    expect(drawDeviation(1.5, 60, Number.POSITIVE_INFINITY, 0.5, 0.5)).toBeCloseTo(60, 0);
    expect(drawDeviation(1.5, Number.NEGATIVE_INFINITY, -60, 0.5, 0.5)).toBeCloseTo(-60, 0);
  });
});

describe('fit verdicts', () => {
  it('a good verdict puts the date off, a tight one brings it forward, against no verdict', () => {
    const none = boy().assess().forecasts[0];
    const good = boy().event('verdict', 0, { verdict: 'good', measure: 'foot_length' }).assess().forecasts[0];
    const tight = boy().event('verdict', 2, { verdict: 'tight', measure: 'foot_length' }).assess()
      .forecasts[0];
    expect(good.p50! > none.p50!).toBe(true);
    expect(tight.p50! < none.p50!).toBe(true);
    expect(good.probabilityOutgrownNow).toBeLessThan(0.001);
  });

  it('good of a whole device says less of the toes than good of the toes', () => {
    const said = (measure: string | null) =>
      boy().event('verdict', 0, { verdict: 'good', measure }).assess().forecasts[0].p50!;
    expect(said(null) < said('foot_length')).toBe(true);
    expect(said(null) > boy().assess().forecasts[0].p50!).toBe(true);
  });

  const grown = () =>
    buildChild(TODAY, 8, { sex: 'male' })
      .series('foot_length', 'left', [
        [14, 182],
        [10, 185],
        [1, 199],
      ])
      .device('solid-afo', 'left', 10);

  it('tight after more was used up than there was puts no date off', () => {
    const [without] = grown().assess().forecasts;
    const [tight] = grown().event('verdict', 1, { verdict: 'tight' }).assess().forecasts;
    expect(tight.outcome).toBe('already-outgrown');
    expect(Math.abs(daysBetween(without.p50!, tight.p50!))).toBeLessThanOrEqual(14);
  });

  it('good outweighs the family’s default: not beyond use that day at any limit, however much was used up', () => {
    const [without] = grown().assess().forecasts;
    expect(without.outcome).toBe('already-outgrown');
    const [good] = grown().event('verdict', 1, { verdict: 'good' }).assess().forecasts;
    const verdictDay = grown().day(1);
    const at = good.dates.findLastIndex((d) => d <= verdictDay);
    expect(good.probabilityOutgrown[at]).toBe(0);
    // It speaks of that day and of none after it.
    expect(good.probabilityOutgrown[at + 3]).toBeGreaterThan(0);
    expect(good.outcome).toBe('forecast');
    expect(good.p50! > TODAY).toBe(true);
    // What was used up is evidence of this device's own room: it takes more than the family's 8 mm.
    const toes = good.room.find((r) => r.series.measure === 'foot_length')!;
    expect(toes.roomMm).toBeGreaterThan(0);
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

  it('an adjustment by an unknown amount puts no date off and answers no word on the fit', () => {
    const dates = (built: ReturnType<typeof boy>) => {
      const { outcome, p10, p50, p90 } = built.assess().forecasts[0];
      return { outcome, p10, p50, p90 };
    };
    const eased = { adjustment: 'flare', measure: 'foot_length' };
    expect(dates(boy().event('adjusted', 1, eased))).toEqual(dates(boy()));
    for (const verdict of ['tight', 'outgrown'])
      expect(dates(boy().event('verdict', 2, { verdict }).event('adjusted', 1, eased))).toEqual(
        dates(boy().event('verdict', 2, { verdict })),
      );
  });

  it('an adjustment without its limit or its millimetres is said not to be counted', () => {
    const seen = (measure: string | null, changeMm: number | null) =>
      boy()
        .event('adjusted', 1, { adjustment: 'flare', measure, changeMm })
        .assess()
        .flags.some((f) => f.id.startsWith('unread-adjustment'));
    expect([seen('foot_length', 4), seen('foot_length', null), seen(null, 4)]).toEqual([false, true, true]);
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
    expect(forecasts[0].adjustments?.[0]).toMatchObject({ kind: 'side-bar', dueNow: true });
  });
});
