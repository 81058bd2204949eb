import { describe, expect, test } from 'vitest';
import { childPrior } from '../../src/growth/child/child-prior.js';
import { logAge } from '../../src/growth/population/growth-age.js';
import { isLogMeasure } from '../../src/growth/population/growth-scale.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { points, sideCode } from '../../src/growth/population/points.js';
import { denseCholesky } from '../../src/statistics/dense-cholesky.js';
import { randomStream } from '../../src/statistics/random-stream.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

/*
 * Simulation-based calibration (Talts et al. 2018, arXiv 1804.06788): children drawn from the model's own prior,
 * measured with error, fitted; where the truth ranks in each posterior must be uniform. Catches an error in the
 * likelihood, the grid, the conditioning or the prediction, whatever the parameters are.
 */
const CHILDREN = 240;
const model = loadGrowthModel();
const series = [
  { measure: 'leg_length', side: 'none', errorMm: 5 },
  { measure: 'stature', side: 'none', errorMm: 4 },
  { measure: 'foot_length', side: 'left', errorMm: 2 },
] as const;

function simulate(seed: number) {
  const chance = randomStream(seed);
  const sex = chance.uniform() < 0.5 ? ('male' as const) : ('female' as const);
  const age = (sex === 'male' ? 9.5 : 8) + 4.5 * chance.uniform();
  const ages = [age - 2, age - 1, age, age + 1];
  const submodel = model.submodels[sex].find((m) => m.name === 'tempo');
  if (!submodel) throw new Error('no tempo submodel');
  const at = { tempo: chance.normal(), intensity: chance.normal(), logPrior: 0 };
  const prior = childPrior(child([]), model.measures);
  const real = ages.map((a) => (dayAt(a) - dayAt(0)) / 365.25);
  const rows = series.flatMap((s) =>
    real.map((a) => ({
      measure: model.index.get(s.measure) as number,
      side: sideCode(s.side),
      x: logAge(a),
    })),
  );
  const where = points(rows);
  const placed = submodel.place(where, prior, at);
  const n = rows.length;
  const v = new Float64Array(n * n);
  submodel.covariance(placed, placed, submodel.fixedCovariance(where, where, prior), prior, v);
  for (let i = 0; i < n; i++) v[i * n + i] += 1e-6;
  if (!denseCholesky(v, n)) throw new Error('prior covariance is not positive definite');
  const z = Array.from({ length: n }, () => chance.normal());
  const truth = rows.map(
    (_, i) => placed.mean[i] + z.slice(0, i + 1).reduce((s, x, k) => s + v[i * n + k] * x, 0),
  );
  const measured = series.flatMap((s, d) =>
    ages.slice(0, 3).map((a, k) =>
      reading(s.measure, a, truth[d * 4 + k] + s.errorMm * chance.normal(), {
        side: s.side,
        technicalError: s.errorMm,
      }),
    ),
  );
  const posterior = posteriorOf(child(measured, { sex }), model);
  const later = series.map((s, d) => {
    const p = posterior.predict(s, [dayAt(age + 1)]);
    const inside = (tail: number) =>
      truth[d * 4 + 3] > p.quantile(tail)[0] && truth[d * 4 + 3] < p.quantile(1 - tail)[0];
    const levels = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
    return { rank: levels.filter((q) => truth[d * 4 + 3] > p.quantile(q)[0]).length, in80: inside(0.1) };
  });
  const tempoZ = (submodel.tempoYears(at.tempo) - posterior.tempoYears.mean) / posterior.tempoYears.sd;
  return { later, tempoZ };
}

describe('children simulated from the model are recovered', () => {
  expect(series.every((s) => !isLogMeasure(s.measure))).toBe(true);
  const all = Array.from({ length: CHILDREN }, (_, i) => simulate(1000 + i));
  test.each(series.map((s, d) => [s.measure, d] as const))(
    '%s a year ahead: ranks uniform, 80 %% band covers 80 %%',
    (_, d) => {
      const counts = new Array(10).fill(0);
      for (const c of all) counts[c.later[d].rank]++;
      const chiSquare = counts.reduce((s, c) => s + (c - CHILDREN / 10) ** 2 / (CHILDREN / 10), 0);
      // 99.9 % point of chi-square with 9 degrees of freedom (R: qchisq(.999, 9) = 27.877).
      expect(chiSquare).toBeLessThan(27.877);
      const covered = all.filter((c) => c.later[d].in80).length / CHILDREN;
      // Binomial error of 240 children is 2.6 %; three of them.
      expect(Math.abs(covered - 0.8)).toBeLessThan(0.078);
    },
  );
  test('tempo: standardised errors have mean 0 and SD 1', () => {
    const z = all.map((c) => c.tempoZ);
    const mean = z.reduce((s, x) => s + x, 0) / CHILDREN;
    const sd = Math.sqrt(z.reduce((s, x) => s + (x - mean) ** 2, 0) / CHILDREN);
    expect(Math.abs(mean)).toBeLessThan(3.3 / Math.sqrt(CHILDREN));
    expect(sd).toBeGreaterThan(0.85);
    expect(sd).toBeLessThan(1.15);
  });
});
