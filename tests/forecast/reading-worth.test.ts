import { expect, test } from 'vitest';
import { readingWorth } from '../../src/forecast/device/reading-worth.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';
import { randomStream } from '../../src/statistics/random-stream.js';

const DRAWS = 4000;
const chance = randomStream(5);
const size = Float64Array.from({ length: DRAWS }, () => 4 * chance.normal());
const own = Float64Array.from({ length: DRAWS }, () => chance.normal());
const band = 2 * normalQuantile(0.9);

test('agrees with the conditional variance of two normals (any textbook on regression)', () => {
  // Day = 300 - 10 size + 20 own noise: variance 10^2 (4^2 left after a reading of error 2: 16*4/20 = 3.2) + 20^2.
  const day = Float64Array.from(size, (s, i) => 300 - 10 * s + 20 * own[i]);
  const { nowDays, thenDays } = readingWorth(day, size, 2);
  expect(Math.abs(nowDays / (band * Math.sqrt(1600 + 400)) - 1)).toBeLessThan(0.05);
  expect(Math.abs(thenDays / (band * Math.sqrt(320 + 400)) - 1)).toBeLessThan(0.07);
});

test('a reading of a size that decides nothing is worth nothing', () => {
  const day = Float64Array.from(own, (o) => 300 + 20 * o);
  const { nowDays, thenDays } = readingWorth(day, size, 2);
  expect(Math.abs(thenDays / nowDays - 1)).toBeLessThan(0.05);
});

test('a careless reading is worth less than a careful one', () => {
  const day = Float64Array.from(size, (s) => 300 - 10 * s);
  expect(readingWorth(day, size, 1).thenDays).toBeLessThan(0.5 * readingWorth(day, size, 6).thenDays);
});
