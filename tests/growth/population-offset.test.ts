import { describe, expect, test } from 'vitest';
import { offsetLearner, withOffsets } from '../../src/growth/child/learn-population-offset.js';
import { tableIndex } from '../../src/growth/population/curve-table.js';
import { logAge } from '../../src/growth/population/growth-age.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { mixtureQuantile } from '../../src/growth/prediction/mixture-quantile.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

const model = loadGrowthModel();
const learnPopulationOffset = (of: typeof model, inputs: readonly ReturnType<typeof child>[]) => {
  const learner = offsetLearner(of);
  for (const input of inputs) learner.add(input);
  return withOffsets(of, learner.offsets());
};
const leg = { measure: 'leg_length', side: 'none' } as const;
/** A clinic whose boys have legs 30 mm longer than the model's own boys, 20 of them, a little different each. */
const boy = (
  i: number,
  firstAge = 8 + i * 0.3,
  measure: 'leg_length' | 'foot_length' = 'leg_length',
  more = {},
) => {
  const ages = [firstAge, firstAge + 0.5];
  const mean = posteriorOf(child([reading('head_circumference', firstAge, 530)])).predict(
    { measure, side: 'none' },
    ages.map(dayAt),
  ).mean;
  return child(
    ages.map((age, k) => reading(measure, age, mean[k] + 30 + 8 * ((i % 3) - 1))),
    more,
  );
};
const twenty = [...Array(20).keys()];
const caseload = twenty.map((i) => boy(i));

describe("a clinic's own level", () => {
  const own = learnPopulationOffset(model, caseload);
  const at = (m: typeof model, measure: 'leg_length' | 'foot_length', sex: 'male' | 'female') => {
    const any = child([reading('head_circumference', 10, 530)], { sex });
    return posteriorOf(any, m).predict({ measure, side: 'none' }, [dayAt(10)]).mean[0];
  };
  test('moves the curve of the measure and sex it was seen in', () => {
    const moved = at(own, 'leg_length', 'male') - at(model, 'leg_length', 'male');
    expect(moved).toBeGreaterThan(12);
    expect(moved).toBeLessThan(32);
  });
  test('leaves the other sex and other measures alone', () => {
    expect(at(own, 'leg_length', 'female')).toBeCloseTo(at(model, 'leg_length', 'female'), 6);
    expect(at(own, 'foot_length', 'male')).toBeCloseTo(at(model, 'foot_length', 'male'), 6);
  });
  test('learns how much faster its children grow from few seen often', () => {
    // Legs of twenty boys each seen at 6 to 13 years, 4 mm a year ahead of the model's, at very different levels.
    const often = Array.from({ length: 20 }, (_, i) =>
      child(
        Array.from({ length: 8 }, (_, k) => {
          const mean = posteriorOf(child([reading('weight', 6 + k, 20 + 3 * k)])).predict(leg, [
            dayAt(6 + k),
          ]);
          return reading('leg_length', 6 + k, mean.mean[0] + 4 * k + 25 * ((i % 3) - 1));
        }),
      ),
    );
    const plain = (m: typeof model, age: number) =>
      posteriorOf(child([reading('weight', age, 14 + 3 * (age - 4))]), m).predict(leg, [dayAt(age)]).mean[0];
    const moved = (age: number) => plain(learned, age) - plain(model, age);
    const learned = learnPopulationOffset(model, often);
    expect(moved(12.5) - moved(6.5)).toBeGreaterThan(6);
    expect(moved(12.5) - moved(6.5)).toBeLessThan(30);
    expect(learned.parameters.offsets.every((o) => o.children === 20)).toBe(true);
  });
  test.each([
    ['from nineteen children', caseload.slice(1)],
    ['from one visit each', caseload.map((c) => ({ ...c, measurements: c.measurements.slice(0, 1) }))],
    ['from infants', twenty.map((i) => boy(i, 0.5 + i / 25))],
    [
      'from children whose condition moves the measure',
      twenty.map((i) => boy(i, 8, 'leg_length', { conditions: ['cerebral-palsy'] })),
    ],
    ['from children given growth hormone', caseload.map((c) => ({ ...c, hormoneFrom: '2018-01-01' }))],
  ])('is not learned %s', (_, children) => {
    expect(learnPopulationOffset(model, children).parameters.offsets).toEqual([]);
  });
  test('seen at 8 to 14 only, it is in proportion to the spread below and not larger for an infant', () => {
    const [male] = [learnPopulationOffset(model, caseload)].map((m) => m.submodels.male[0].curves.median);
    const at = (years: number) => tableIndex(logAge(years));
    const d = model.index.get('leg_length') as number;
    const moved = (years: number) => male[d][at(years)] - model.submodels.male[0].curves.median[d][at(years)];
    expect(moved(8)).toBeGreaterThan(12);
    expect(moved(1)).toBeGreaterThan(0);
    expect(moved(1)).toBeLessThan(0.6 * moved(8));
  });
});

test('mixtureQuantile of two normals against the error function of Abramowitz & Stegun 7.1.26', () => {
  const q = mixtureQuantile(0.25, [0.3, 0.7], [0, 4], [1, 2]);
  const cdf = (x: number) => 0.5 * (1 + erf(x / Math.SQRT2));
  expect(0.3 * cdf(q) + 0.7 * cdf((q - 4) / 2)).toBeCloseTo(0.25, 3);
});

/** Abramowitz & Stegun 7.1.26, error below 1.5e-7: independent of the product's own normal distribution function. */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const y = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return Math.sign(x) * (1 - y * Math.exp(-x * x));
}
