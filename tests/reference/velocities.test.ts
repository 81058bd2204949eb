/** How fast the reference's children grow: a size can be right at every age while the growth between is not. */
import { describe, expect, it } from 'vitest';
import { type MeasureId, measureIds, measures } from '../../src/records/measure.js';
import { lmsAt, loadReferenceSource, loadReferences } from '../../src/reference/reference.js';
import { medianVelocities } from './median-velocities.js';

const refs = loadReferences();
const velocities = medianVelocities(refs);
const sexes = ['male', 'female'] as const;
type Sex = (typeof sexes)[number];
const of = (measure: MeasureId, sex: Sex, from: number, to: number) =>
  velocities.filter((v) => v.measure === measure && v.sex === sex && v.ageYears > from && v.ageYears < to);
const gain = (measure: MeasureId, sex: Sex, from: number, to: number) =>
  lmsAt(refs, measure, sex, to)!.m - lmsAt(refs, measure, sex, from)!.m;

/** CDC 2000 as published quickens a little by itself: girls' stature from 68 mm a year at 4 to 71 at 5.5. */
const slack = (id: MeasureId) => (id === 'stature' ? 1.06 : 1.02);
const bones = measureIds.filter((id) => measures[id].skeletal && lmsAt(refs, id, 'male', 5));
const girths = measureIds.filter((id) => !measures[id].skeletal);

describe('velocity of the reference medians', () => {
  it.each(bones)('%s never quickens from 1 to 6 years', (id) => {
    for (const sex of sexes) {
      let least = Infinity;
      for (const { ageYears, perYear } of of(id, sex, 1, 6)) {
        expect(perYear, `${sex} at ${ageYears}`).toBeLessThan(least * slack(id) + 0.3);
        least = Math.min(least, perYear);
      }
    }
  });

  it.each(girths)('%s never quickens from 1 to 3 years', (id) => {
    for (const sex of sexes) {
      let least = Infinity;
      for (const { ageYears, perYear } of of(id, sex, 1, 3)) {
        expect(perYear, `${sex} at ${ageYears}`).toBeLessThan(least * 1.03 + 0.15);
        least = Math.min(least, perYear);
      }
    }
  });

  it.each(bones)('%s never brakes by more than a quarter from one quarter of a year to the next', (id) => {
    for (const sex of sexes)
      of(id, sex, 1, 6).reduce((before, now) => {
        expect(now.perYear, `${sex} at ${now.ageYears}`).toBeGreaterThan(0.75 * before.perYear - 0.2);
        return now;
      });
  });

  // Gould et al. 1990, Foot & Ankle (abstract): half a shoe size (4.23 mm) in under 2 months below 15 months of age, in
  // 2-3 months from 15 months to 2 years, 3-4 at 2-3 years. From 3 to 5 years 4 months: the survey's children are slower
  // (10-12 mm a year instead of 12.7), see the next check.
  it.each([
    ['9-15 months', 0.75, 1.25, 0, 2.3],
    ['15-24 months', 1.25, 2, 2, 3.1],
    ['2-3 years', 2, 3, 3, 4],
    ['3-5 years', 3, 5, 4, 5.2],
  ] as const)('half a shoe size at %s', (_, from, to, least, most) => {
    for (const sex of sexes) {
      const months = (12 * 4.23 * (to - from)) / gain('foot_length', sex, from, to);
      expect(months, sex).toBeGreaterThan(least);
      expect(months, sex).toBeLessThan(most);
    }
  });

  // The survey's own records (Snyder et al. 1977), slope of a parabola by least squares over the year to both sides:
  // mm a year and its standard error, worked out apart with numpy.
  it.each([
    ['foot_length', 'male', 3, 11.6, 1.5],
    ['foot_length', 'male', 4, 10.2, 1.1],
    ['foot_length', 'male', 5, 9.6, 1.3],
    ['foot_length', 'female', 3, 12.9, 1.4],
    ['foot_length', 'female', 4, 11.4, 1.3],
    ['foot_length', 'female', 5, 7.8, 1.2],
    ['foot_breadth', 'male', 4, 3.5, 0.5],
    ['foot_breadth', 'female', 4, 3.2, 0.6],
    ['knee_height', 'female', 4, 16, 4],
    ['knee_height', 'male', 5, 27.6, 4.5],
    ['sitting_height', 'male', 4, 27.2, 2.9],
    ['sitting_height', 'female', 4, 27.7, 3.3],
    ['hip_height', 'male', 4, 51, 6.2],
    ['hip_height', 'female', 4, 46, 6.5],
  ] as const)("%s %s at %s grows as the survey's own records do", (id, sex, age, slope, se) => {
    expect(Math.abs(gain(id, sex, age - 0.5, age + 0.5) - slope)).toBeLessThan(2.5 * se);
  });

  // A foot in proportion to stature grows 3.9 mm in three months at 24 months, falling to 3.3 at 30.
  it('from 2 to 3 years a foot grows as stature does, within a fifth', () => {
    for (const sex of sexes)
      for (const age of [2, 2.25, 2.5, 2.75]) {
        const share = (id: MeasureId) => gain(id, sex, age, age + 0.25) / lmsAt(refs, id, sex, age)!.m;
        expect(share('foot_length') / share('stature'), `${sex} ${age}`).toBeGreaterThan(0.8);
        expect(share('foot_length') / share('stature'), `${sex} ${age}`).toBeLessThan(1.35);
      }
  });

  it('between WHO and CDC stature and weight stay near the published figures', () => {
    const who = loadReferenceSource('who-2006');
    const cdc = loadReferenceSource('cdc-2000');
    for (const sex of sexes)
      for (const [id, most] of [
        ['stature', 0.009],
        ['weight', 0.05],
      ] as const)
        for (let age = 1.5; age <= 3; age += 0.1) {
          const { m } = lmsAt(refs, id, sex, age)!;
          const near = [who, cdc].flatMap((r) => lmsAt(r, id, sex, age)?.m ?? []);
          expect(Math.min(...near.map((p) => Math.abs(m / p - 1))), `${id} ${sex} ${age}`).toBeLessThan(most);
        }
  });
});
