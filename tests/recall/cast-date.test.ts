import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { castDate } from '../../src/recall/decide/cast-date.js';
import { addDaysIso, daysBetween } from '../../src/records/dates.js';
import { rampForecast, today } from './build-a-clinic.js';

const plain = { today, fitWaitDays: 0, worthItWithinDays: 56, minimumWindowDays: 28, riskTolerance: 0.1 };

describe('castDate', () => {
  // By hand: F(t) = (t - 105)/105 on [105, 210] days from today; T is 10, 20 or 30 days, equally likely.
  // At d >= 95 all three terms count: mean F = (d + 20 - 105)/105 <= 0.1 -> d <= 95.5 -> day 95.
  it('is the hand-computed day for a straight survival curve and three equally likely turnarounds', () => {
    const result = castDate({
      ...plain,
      forecast: rampForecast('a/d', 105, 210),
      turnaround: { samplesDays: [10, 20, 30] },
    });
    expect(daysBetween(today, result.latestSafe!)).toBe(95);
    expect(result.overdue).toBe(false);
    // By hand: today's cast is fitted by day 30 at the latest, long before day 105.
    expect(result.riskIfCastToday).toBe(0);
    // By hand: E F(d + T + 56) >= 0.5 -> d + 20 + 56 - 105 >= 52.5 -> d = 82, but the window is at least 28 days: 95 - 28 = 67.
    expect(daysBetween(today, result.worthIt!)).toBe(67);
  });

  // By hand: tolerance 5 % with T 10, 20, 30: below d = 95 only T = 20 and 30 reach past 105 (d >= 85):
  // ((d - 85) + (d - 75))/315 <= 0.05 -> 2d <= 175.75 -> day 87.
  it('takes only the turnarounds that reach the curve at the stricter tolerance', () => {
    const result = castDate({
      ...plain,
      riskTolerance: 0.05,
      forecast: rampForecast('a/d', 105, 210),
      turnaround: { samplesDays: [10, 20, 30] },
    });
    expect(daysBetween(today, result.latestSafe!)).toBe(87);
  });

  // By hand: F(t) = (t + 49)/98 from -49 to 49 days; T = 21: F before today counts as 0, so any fitting before today is
  // the bound: d = -22 (fitted the day before the forecast begins; F(0) = 0.5 already).
  it('leaves an overdue date in the past and says so', () => {
    const result = castDate({
      ...plain,
      forecast: rampForecast('a/d', -49, 49),
      turnaround: { samplesDays: [21] },
    });
    expect(daysBetween(today, result.latestSafe!)).toBe(-22);
    expect(result.overdue).toBe(true);
    expect(result.riskIfCastToday).toBeCloseTo(5 / 7, 10);
  });

  it('has no date when the tolerance is not reached inside the horizon', () => {
    const result = castDate({
      ...plain,
      forecast: rampForecast('a/d', 5000, 6000),
      turnaround: { samplesDays: [21] },
    });
    expect(result).toMatchObject({ latestSafe: null, worthIt: null, overdue: false });
  });

  it('does not call a cast worth it before the funder pays', () => {
    const eligibleFrom = addDaysIso(today, 300);
    const result = castDate({
      ...plain,
      eligibleFrom,
      forecast: rampForecast('a/d', 105, 210),
      turnaround: { samplesDays: [20] },
    });
    expect(result.worthIt).toBe(eligibleFrom);
    expect(daysBetween(today, result.latestSafe!)).toBe(95);
  });

  it('for any curve: the risk on the day is within the tolerance, on the next day it is not, and it never rises with tolerance or falls with waiting', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -100, max: 500 }),
        fc.integer({ min: 10, max: 300 }),
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0.02, max: 0.4, noNaN: true }),
        (from, width, waits, tolerance) => {
          const samplesDays = [...waits].sort((a, b) => a - b);
          const forecast = rampForecast('a/d', from, from + width);
          const on = (riskTolerance: number, extra = 0) =>
            castDate({
              ...plain,
              riskTolerance,
              forecast,
              turnaround: { samplesDays: samplesDays.map((d) => d + extra) },
            });
          const { latestSafe } = on(tolerance);
          expect(latestSafe).not.toBeNull();
          const riskOn = (days: number) =>
            castDate({
              ...plain,
              today: addDaysIso(latestSafe!, days),
              forecast,
              turnaround: { samplesDays },
            }).riskIfCastToday;
          expect(riskOn(0)).toBeLessThanOrEqual(tolerance);
          expect(riskOn(1)).toBeGreaterThan(tolerance);
          expect(on(tolerance * 1.5).latestSafe! >= latestSafe!).toBe(true);
          expect(on(tolerance, 7).latestSafe).toBe(addDaysIso(latestSafe!, -7));
          expect(on(tolerance).worthIt! <= latestSafe!).toBe(true);
        },
      ),
      { numRuns: 200, seed: 1 },
    );
  });
});
