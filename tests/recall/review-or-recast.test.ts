import { describe, expect, it } from 'vitest';
import { levellingSettings } from '../../src/recall/level/contract.js';
import { expectedCostPerSd, reviewOrRecast } from '../../src/recall/level/review-or-recast.js';
import { randomStream } from '../../src/statistics/random-stream.js';
import { rampForecast } from './build-a-clinic.js';

const settings = levellingSettings.parse({});
const room = (grownSdMm: number) => [
  {
    series: { measure: 'foot_length' as const, side: 'left' as const },
    allowanceMm: 10,
    grownMm: 5,
    grownSdMm,
    roomMm: 5,
    roomLowMm: 1,
    roomHighMm: 9,
    limitMm: 175,
  },
];

describe('reviewOrRecast', () => {
  it('prices the best date as a newsvendor, against simulation', () => {
    // E|X - d| of a standard Normal at its median is sqrt(2/pi) = 0.7979 (textbook); h = c = 1.
    expect(expectedCostPerSd(1, 1)).toBeCloseTo(Math.sqrt(2 / Math.PI), 6);
    const random = randomStream(1);
    const draws = Array.from({ length: 100_000 }, () => random.normal());
    for (const [late, early] of [
      [1, 0.1],
      [3, 0.1],
    ]) {
      const cost = (d: number) =>
        draws.reduce((s, x) => s + (d > x ? late * (d - x) : early * (x - d)), 0) / draws.length;
      let best = Number.POSITIVE_INFINITY;
      for (let d = -4; d <= 1; d += 0.02) best = Math.min(best, cost(d));
      expect(expectedCostPerSd(late, early)).toBeCloseTo(best, 2);
    }
  });

  it('asks for a home measurement when the size is the doubt, and casts when growth is', () => {
    const turnaround = { p10Days: 15, p90Days: 30 };
    // Room 5 mm over 180 days: 4 mm of doubt about the size is 144 days of doubt about the date.
    const doubtful = { ...rampForecast('a/d', 0, 360), room: room(4) };
    const known = { ...rampForecast('a/d', 0, 360), room: room(0.5) };
    const asked = reviewOrRecast(doubtful, turnaround, settings, false)!;
    expect(asked).toMatchObject({ decision: 'measure', where: 'home' });
    expect(asked.sdAfterDays).toBeLessThan(asked.sdNowDays);
    expect(reviewOrRecast(known, turnaround, settings, false)!.decision).toBe('cast');
    // More harm in being late makes knowing worth more.
    expect(reviewOrRecast(doubtful, turnaround, settings, true)!.worthDays).toBeGreaterThan(asked.worthDays);
    expect(reviewOrRecast({ ...doubtful, room: [] }, turnaround, settings, false)).toBeNull();
  });
});
