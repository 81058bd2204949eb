import { expect, test } from 'vitest';
import { inDayOrder, readingWorth } from '../../src/forecast/device/reading-worth.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';
import { randomStream } from '../../src/statistics/random-stream.js';
import { buildChild } from './build-record.js';

const DRAWS = 4000;
const chance = randomStream(5);
const size = Float64Array.from({ length: DRAWS }, () => 4 * chance.normal());
const own = Float64Array.from({ length: DRAWS }, () => chance.normal());
const band = 2 * normalQuantile(0.9);

test('agrees with the conditional variance of two normals (any textbook on regression)', () => {
  // Day = 300 - 10 size + 20 own noise: variance 10^2 (4^2 left after a reading of error 2: 16*4/20 = 3.2) + 20^2.
  const day = Float64Array.from(size, (s, i) => 300 - 10 * s + 20 * own[i]);
  const { nowDays, thenDays } = readingWorth(inDayOrder(day), size, 2);
  expect(Math.abs(nowDays / (band * Math.sqrt(1600 + 400)) - 1)).toBeLessThan(0.05);
  expect(Math.abs(thenDays / (band * Math.sqrt(320 + 400)) - 1)).toBeLessThan(0.07);
});

test('a reading of a size that decides nothing is worth nothing', () => {
  const day = Float64Array.from(own, (o) => 300 + 20 * o);
  const { nowDays, thenDays } = readingWorth(inDayOrder(day), size, 2);
  expect(Math.abs(thenDays / nowDays - 1)).toBeLessThan(0.05);
});

test('a careless reading is worth less than a careful one', () => {
  const day = Float64Array.from(size, (s) => 300 - 10 * s);
  expect(readingWorth(inDayOrder(day), size, 1).thenDays).toBeLessThan(
    0.5 * readingWorth(inDayOrder(day), size, 6).thenDays,
  );
});

test('the reading that narrows most stands first', () => {
  const today = '2026-06-15';
  const worthAt = (age: number, foot: number) =>
    buildChild(today, age, { sex: 'female' })
      .series('foot_length', 'left', [
        [12, foot - 8],
        [1, foot],
      ])
      .series('knee_height', 'left', [
        [12, 1.7 * foot - 30],
        [1, 1.7 * foot],
      ])
      .device('solid-afo', 'left', 6)
      .assess({ draws: 200 }).forecasts[0];
  const days = worthAt(11, 227).readingWorth!.map((r) => r.thenDays);
  expect(days.length).toBeGreaterThan(1);
  expect(days).toEqual(days.toSorted((a, b) => a - b));
});
