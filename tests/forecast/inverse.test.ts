import { describe, expect, it } from 'vitest';
import { allowanceToLast } from '../../src/forecast/inverse/allowance-to-last.js';
import { canAnswer } from '../../src/forecast/inverse/growth-from-cast.js';
import { lifeOfAllowances } from '../../src/forecast/inverse/life-of-allowances.js';
import { roomByMonth } from '../../src/forecast/inverse/room-by-month.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { addDaysIso, dayNumber } from '../../src/records/dates.js';
import type { Series } from '../../src/records/measure.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
const child = buildChild(TODAY, 7, { sex: 'female' })
  .series('foot_length', 'left', [
    [12, 178],
    [6, 183],
    [0, 188],
  ])
  .series('knee_height', 'left', [
    [12, 290],
    [6, 301],
    [0, 308],
  ])
  .series('hand_length', 'left', [[0, 134]])
  .series('malleolar_width', 'left', [[0, 52]]);
const { growth } = child.assess();
if (growth.kind !== 'posterior') throw new Error('no posterior');
const { posterior } = growth;
const foot = { measure: 'foot_length', side: 'left' } as const;
const knee = { measure: 'knee_height', side: 'left' } as const;
const model = loadGrowthModel();
const ask = (series: readonly Series[]) => ({
  posterior,
  model,
  measurements: child.record.measurements,
  series,
  castDate: TODAY,
  draws: 4000,
  seed: 3,
});

describe('inverse questions', () => {
  it('answers for what keeps its proportion to a measure with a curve, and says where nothing tells how it grows', () => {
    const hand: Series = { measure: 'hand_length', side: 'left' };
    const year = addDaysIso(TODAY, 365);
    expect(canAnswer(ask([hand]))).toBe(true);
    // A girl's hand of 7 years grows 4 to 8 mm a year (common practice, no source).
    expect(allowanceToLast(ask([hand]), year, 0.5)).toBeGreaterThan(3);
    expect(allowanceToLast(ask([hand]), year, 0.5)).toBeLessThan(9);
    expect(roomByMonth(ask([hand]), [12], [0.5]).size).toBe(1);
    expect(lifeOfAllowances(ask([hand]), [5])[0].p50).not.toBeNull();
    const width: Series = { measure: 'malleolar_width', side: 'left' };
    expect(canAnswer(ask([width]))).toBe(false);
    expect(canAnswer(ask([{ ...hand, side: 'right' }]))).toBe(false);
    expect(roomByMonth(ask([foot, width]), [12], [0.5]).has('malleolar_width/left')).toBe(false);
  });

  // The mean of the growth between two days follows from the posterior's own exact means, with no sampling in it.
  it('needs, at even odds, about the expected growth; more at higher odds and for a longer time', () => {
    const year = addDaysIso(TODAY, 365);
    const { mean } = posterior.predict(foot, [dayNumber(TODAY), dayNumber(year)]);
    const even = allowanceToLast(ask([foot]), year, 0.5);
    expect(Math.abs(even - (mean[1] - mean[0]))).toBeLessThan(0.5);
    const ninety = allowanceToLast(ask([foot]), year, 0.9);
    expect(ninety).toBeGreaterThan(even + 0.5);
    expect(allowanceToLast(ask([foot]), addDaysIso(TODAY, 540), 0.9)).toBeGreaterThan(ninety);
  });

  it('the allowance that lasts to a date at 90 % has that date as its P10: the two questions are each other’s inverse', () => {
    for (const days of [200, 365, 600]) {
      const until = addDaysIso(TODAY, days);
      const mm = allowanceToLast(ask([foot]), until, 0.9);
      const [life] = lifeOfAllowances(ask([foot]), [mm]);
      expect(Math.abs(dayNumber(life.p10!) - dayNumber(until))).toBeLessThanOrEqual(10);
    }
  });

  it('answers every month and odds of every series from one sampling, as asking one by one does', () => {
    const rooms = roomByMonth(ask([foot, knee]), [6, 12, 24], [0.5, 0.9]);
    const year = addDaysIso(TODAY, Math.round(12 * 30.44));
    for (const series of [foot, knee]) {
      const [even, ninety] = rooms.get(`${series.measure}/left`)!;
      // Two samplings of 4,000 agree to their own error.
      expect(Math.abs(even[1] - allowanceToLast(ask([series]), year, 0.5))).toBeLessThan(0.5);
      expect(Math.abs(ninety[1] - allowanceToLast(ask([series]), year, 0.9))).toBeLessThan(0.8);
      expect(even[0]).toBeLessThan(even[1]);
      expect(ninety[1]).toBeLessThan(ninety[2]);
      expect(even[1]).toBeLessThan(ninety[1]);
    }
  });

  it('a bar further down spares a height what it lifts, and no more than its travel', () => {
    const alone = roomByMonth(ask([foot, knee]), [12], [0.9]).get('knee_height/left')![0][0];
    const by = (travelMm: number) =>
      roomByMonth(
        ask([foot, knee]),
        [12],
        [0.9],
        new Map([['knee_height/left', { by: foot, travelMm }]]),
      ).get('knee_height/left')![0][0];
    expect(by(0)).toBe(alone);
    expect(alone - by(3)).toBeCloseTo(3, 1);
    expect(by(200)).toBeLessThan(by(3));
  });

  it('larger allowances last longer, each with P10 <= P50 <= P90', () => {
    const lives = lifeOfAllowances(ask([foot]), [3, 6, 9, 12]);
    for (const l of lives) expect(l.p10! <= l.p50! && l.p50! <= (l.p90 ?? '9999')).toBe(true);
    for (let i = 1; i < lives.length; i++) expect(lives[i].p10! > lives[i - 1].p10!).toBe(true);
  });
});
