/** Forecasts for median children against figures published by others; the source stands beside each check. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dayNumber, daysBetween } from '../../src/records/dates.js';
import type { MeasureId, Side } from '../../src/records/measure.js';
import { lmsAt, loadReferences } from '../../src/reference/reference.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
type Sex = 'male' | 'female';

/** A child who has been on the reference median at every visit of the last nine months. */
function medianChild(sex: Sex, ageYears: number, rows: readonly (readonly [MeasureId, Side])[], child = {}) {
  const refs = loadReferences();
  const built = buildChild(TODAY, ageYears, { sex, ...child });
  for (const monthsAgo of [9, 6, 3, 0])
    for (const [measure, side] of rows) {
      const m = lmsAt(refs, measure, sex, ageYears - (monthsAgo * 30.44) / 365.25)?.m;
      if (m !== undefined && ageYears - monthsAgo / 12 > 0.1) built.measured(measure, side, monthsAgo, m);
    }
  return built;
}
const months = (date: string | null) => daysBetween(TODAY, date!) / 30.44;

describe('outside checks', () => {
  // Gould et al. 1990, Foot & Ankle: a half size (4.23 mm) under 15 months in under 2 months; 15-24 months every 2-3;
  // 2-3 years every 3-4; 3-5 years every 4 (abstract). The 1977 survey under our reference grows 10-11 mm a year at
  // 3-5 years, Gould's children 12.7, so the last band is allowed up to six and a half months.
  it('half a shoe size lasts as long as Gould 1990 found', () => {
    const bands = [
      [0.9, 1.2, 2.3],
      [1.5, 1.9, 3.1],
      [1.9, 2, 3.3],
      [2.5, 2.9, 4.2],
      [3.5, 3.8, 5.5],
      [4.5, 3.8, 6.5],
    ] as const;
    for (const sex of ['male', 'female'] as const)
      for (const [age, from, to] of bands) {
        const { forecasts } = medianChild(sex, age, [['foot_length', 'left']])
          .device('foot-orthosis', 'left', 0, { allowancesMm: { foot_length: 4.23 } })
          .assess();
        expect(months(forecasts[0].p50), `${sex} at ${age}`).toBeGreaterThan(from);
        expect(months(forecasts[0].p50), `${sex} at ${age}`).toBeLessThan(to);
      }
  });

  // A foot of 24 months that grows as the body does reaches 8 mm in about 195 days; Gould 1990 (abstract): half a size,
  // 4.23 mm, in 3-4 months at 2-3 years, so 8 mm in 173-230 days.
  it('a foot orthosis with 8 mm of room at 24 months lives half a year or more', () => {
    for (const sex of ['male', 'female'] as const) {
      const { forecasts } = medianChild(sex, 2, [['foot_length', 'left']])
        .device('foot-orthosis', 'left', 0, { allowancesMm: { foot_length: 8 } })
        .assess();
      const days = daysBetween(TODAY, forecasts[0].p50!);
      expect(days, sex).toBeGreaterThan(173);
      expect(days, sex).toBeLessThan(230);
    }
  });

  // Feet stop near 12 in girls and 14 in boys (Anderson 1956, from memory); Cheng in Children 2022;9:750: boys still at
  // 13-14, girls to 15. Sources differ, so only the clear sides of them are held.
  it('feet grow at 9, and have stopped in girls of 16 and boys of 18', () => {
    const outcome = (sex: Sex, age: number) =>
      medianChild(sex, age, [
        ['foot_length', 'left'],
        ['stature', 'none'],
        ['knee_height', 'left'],
      ])
        .device('foot-orthosis', 'left', 0)
        .assess().forecasts[0].outcome;
    expect(outcome('female', 9)).toBe('forecast');
    expect(outcome('male', 9)).toBe('forecast');
    expect(outcome('female', 16)).toBe('full-grown');
    expect(outcome('male', 18)).toBe('full-grown');
  });

  // Anderson et al. 1964 (from memory): femur 32.28 to 47.23 cm and tibia 25.38 to 37.29 cm in boys from 8 to 18, so the
  // tibia has 44 % of the growth of the two. Knee height over hip height has the tibia and foot over nearly the whole limb.
  it('the shank has the share of leg growth that femur and tibia tables give it', () => {
    const { growth } = medianChild('male', 8, [
      ['knee_height', 'left'],
      ['hip_height', 'left'],
      ['stature', 'none'],
    ]).assess();
    const posterior = growth.kind === 'posterior' ? growth.posterior : null;
    const ahead = [dayNumber(TODAY), dayNumber(TODAY) + 3652];
    const gain = (measure: MeasureId) => {
      const { mean } = posterior!.predict({ measure, side: 'left' }, ahead);
      return mean[1] - mean[0];
    };
    const share = gain('knee_height') / gain('hip_height');
    expect(share).toBeGreaterThan(0.38);
    expect(share).toBeLessThan(0.54);
  });

  // WHO Child Growth Standards 2006, head circumference, median boys by day; read from the shared table where it is.
  const who = new URL('../../../shared/data/who-2006/head_circumference_0_5.csv', import.meta.url);
  if (!existsSync(who))
    console.log('skipped: WHO head circumference table not here (../shared/data/who-2006)');
  it.skipIf(!existsSync(who))('a helmet’s room of 20 mm lasts as the WHO median head grows', () => {
    const median = readFileSync(who, 'utf8')
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.split(',').map(Number))
      .filter(([sex]) => sex === 1)
      .map(([, day, , cm]) => ({ day, m: 10 * cm }));
    for (const ageDays of [122, 152, 183]) {
      const start = median.find((r) => r.day === ageDays)!.m;
      const lasts = median.find((r) => r.m >= start + 20)!.day - ageDays;
      const built = buildChild(TODAY, ageDays / 365.25, {
        sex: 'male',
        conditions: ['positional-head-asymmetry'],
      });
      for (const daysAgo of [60, 30, 0])
        built.measured(
          'head_circumference',
          'none',
          daysAgo / 30.44,
          median.find((r) => r.day === ageDays - daysAgo)!.m,
        );
      const { forecasts } = built.device('cranial-orthosis', 'none', 0).assess();
      const voids = forecasts[0].adjustments!.find((a) => a.series.measure === 'head_circumference')!;
      const got = daysBetween(TODAY, voids.p50!);
      expect(got / lasts, `cast at ${ageDays} days: WHO ${lasts}, forecast ${got}`).toBeGreaterThan(0.8);
      expect(got / lasts, `cast at ${ageDays} days: WHO ${lasts}, forecast ${got}`).toBeLessThan(1.25);
    }
  });

  // Krebs, ICIB vol 18 no 1, worked order of failure at 4-14 years: foot first in AFOs, knee axis first in KAFOs, ankle
  // axis almost never first.
  it('foot fails first in AFOs, knee axis first in KAFOs, the ankle axis almost never', () => {
    const rows = [
      ['foot_length', 'left'],
      ['knee_height', 'left'],
      ['hip_height', 'left'],
      ['ankle_height', 'left'],
      ['stature', 'none'],
    ] as const;
    for (const age of [5, 8, 11]) {
      const { forecasts } = medianChild('male', age, rows)
        .device('solid-afo', 'left', 0)
        .device('articulated-afo', 'left', 0)
        .device('kafo', 'left', 0)
        .assess();
      const driver = forecasts.map((f) => f.drivers[0].series.measure);
      expect(driver, `at ${age}`).toEqual(['foot_length', 'foot_length', 'knee_height']);
      const ankle = forecasts[1].drivers.find((d) => d.series.measure === 'ankle_height')?.share ?? 0;
      expect(ankle, `ankle at ${age}`).toBeLessThan(0.05);
    }
  });
});
