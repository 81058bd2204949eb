import { describe, expect, it } from 'vitest';
import { median } from '../../src/statistics/median.js';
import { wilsonInterval } from '../../src/statistics/wilson-interval.js';

describe('Wilson interval', () => {
  // Newcombe (1998), Statistics in Medicine 17:857, Table I, method 3 (figures from memory; R 4.2.2 gives the same:
  // prop.test(81, 263, correct = FALSE) = 0.2552885199, 0.3662095770).
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i as in Newcombe’s table: %f to %f', (count, n, low, high) => {
    const found = wilsonInterval(count, n);
    expect(found.low).toBeCloseTo(low, 4);
    expect(found.high).toBeCloseTo(high, 4);
  });

  it('is as R’s prop.test(81, 263, correct = FALSE), to ten digits', () => {
    const { low, high } = wilsonInterval(81, 263);
    expect(low).toBeCloseTo(0.2552885199, 10);
    expect(high).toBeCloseTo(0.366209577, 9);
  });

  it('says nothing without a trial, and mirrors: all but k of n against k of n', () => {
    expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
    for (const k of [0, 1, 7, 20]) {
      expect(wilsonInterval(20 - k, 20).low).toBeCloseTo(1 - wilsonInterval(k, 20).high, 12);
    }
  });
});

describe('median', () => {
  // R 4.2.2: median(c(5, 1, 9)) = 5, median(c(4, 1, 9, 6)) = 5.
  it('is the middle, or between the two middle ones', () => {
    expect(median([5, 1, 9])).toBe(5);
    expect(median([4, 1, 9, 6])).toBe(5);
    expect(median([])).toBeNull();
  });
});
