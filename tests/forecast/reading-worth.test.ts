import { expect, test } from 'vitest';
import { inDayOrder, readingWorth } from '../../src/forecast/device/reading-worth.js';
import { isoDate } from '../../src/records/dates.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';
import { randomStream } from '../../src/statistics/random-stream.js';
import { child, dayAt, posteriorOf, reading } from '../growth/support.js';
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

const at12 = (age: number, sd: number) =>
  child([reading('foot_length', age - 1, 225), reading('foot_length', age, 235)], {
    markers: sd
      ? [
          {
            id: 'k',
            childId: 'c',
            date: isoDate(dayAt(age)),
            kind: 'maturity-offset',
            value: -1,
            sdYears: sd,
          },
        ]
      : [],
  });

test('the tempo of each draw is that of the child drawn: as spread as the posterior says', () => {
  const p = posteriorOf(at12(12, 0));
  const tempo = p.tempoOfDraws(400);
  const mean = tempo.reduce((s, t) => s + t, 0) / 400;
  const sd = Math.sqrt(tempo.reduce((s, t) => s + (t - mean) ** 2, 0) / 400);
  expect(Math.abs(mean - p.tempoYears.mean)).toBeLessThan(0.1);
  expect(Math.abs(sd / p.tempoYears.sd - 1)).toBeLessThan(0.15);
  // An early child is drawn with a big foot soon and a small gain later: the two go together draw by draw.
  const [path] = p.sample([{ measure: 'foot_length', side: 'none' }], [dayAt(12), dayAt(15)], 400, 1);
  const gain = Float64Array.from(tempo, (_, i) => path[2 * i + 1] - path[2 * i]);
  const mg = gain.reduce((s, g) => s + g, 0) / 400;
  expect(tempo.reduce((s, t, i) => s + (t - mean) * (gain[i] - mg), 0)).toBeGreaterThan(0);
  // A second marker, when one is known, has little left to tell.
  const known = posteriorOf(at12(12, 0.3)).tempoOfDraws(400);
  const day = (of: Float64Array) => Float64Array.from(of, (t) => 300 + 100 * t);
  const worth = (of: Float64Array) => {
    const { nowDays, thenDays } = readingWorth(inDayOrder(day(of)), of, 0.75);
    return thenDays / nowDays;
  };
  expect(worth(tempo)).toBeLessThan(worth(known));
});

test('a marker is asked for from 8 to 17 years, and the reading that narrows most stands first', () => {
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
  expect([7, 11].map((age) => worthAt(age, 150 + 7 * age).markerWorth != null)).toEqual([false, true]);
  const days = worthAt(11, 227).readingWorth!.map((r) => r.thenDays);
  expect(days.length).toBeGreaterThan(1);
  expect(days).toEqual(days.toSorted((a, b) => a - b));
});
