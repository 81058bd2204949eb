import type { CohortBaselines } from '../../growth/population/baseline-curves.js';
import { groupBy } from '../../statistics/group-by.js';
import { monotoneCubic } from '../../statistics/monotone-cubic.js';
import { rounded } from '../../statistics/rounded.js';
import type { SizeCurve, SpreadCurve } from './baselines.js';
import { type BacktestMeasure, backtestMeasures, type GrowthRecord } from './growth-record.js';
import { trueCurve } from './true-curve.js';

/** Fewer children than this at an age give no mean and SD there. */
const FEWEST_CHILDREN = 8;

/** Mean and SD (n - 1) of size at each age, children interpolated within their own rows only. */
export function fitCohortCurves(
  records: readonly GrowthRecord[],
  ages: readonly number[],
): CohortBaselines['curves'] {
  const bySex = groupBy(records, (r) => r.sex);
  const one = (measure: BacktestMeasure, sex: 'male' | 'female') => {
    const curves = (bySex.get(sex) ?? []).flatMap((record) => trueCurve(record, measure) ?? []);
    const rows = ages.flatMap((ageYears) => {
      const sizes = curves.flatMap((curve) => curve.truth(ageYears)?.size ?? []);
      if (sizes.length < FEWEST_CHILDREN) return [];
      const mean = sizes.reduce((sum, v) => sum + v, 0) / sizes.length;
      const variance = sizes.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (sizes.length - 1);
      return [{ ageYears, meanMm: rounded(mean, 2), sdMm: rounded(Math.sqrt(variance), 2) }];
    });
    return {
      ageYears: rows.map((r) => r.ageYears),
      meanMm: rows.map((r) => r.meanMm),
      sdMm: rows.map((r) => r.sdMm),
    };
  };
  return Object.fromEntries(
    backtestMeasures
      .filter((measure) => measure !== 'weight')
      .map((measure) => [measure, { male: one(measure, 'male'), female: one(measure, 'female') }] as const)
      .filter(([, curve]) => curve.male.ageYears.length > 1 && curve.female.ageYears.length > 1),
  );
}

/** The cohort's curves as a normal distribution at any age (L = 1); the end values are held outside. */
export function cohortCurve(curves: CohortBaselines['curves']): SizeCurve {
  const smooth = new Map(
    Object.entries(curves).flatMap(([measure, bySex]) =>
      (['male', 'female'] as const).map((sex) => {
        const { ageYears, meanMm, sdMm } = bySex[sex];
        return [
          `${measure}/${sex}`,
          { mean: monotoneCubic(ageYears, meanMm), sd: monotoneCubic(ageYears, sdMm) },
        ] as const;
      }),
    ),
  );
  return (measure, sex, ageYears) => {
    const curve = smooth.get(`${measure}/${sex}`)!;
    const m = curve.mean(ageYears);
    return { l: 1, m, s: curve.sd(ageYears) / m };
  };
}

/** The SDs of a fitted file as a function; between ages straight, outside held, at the nearest horizon kept. */
export function spreadCurve(baselines: CohortBaselines, noise: string): SpreadCurve {
  return (method, measure, sex, ageYears, aheadYears) => {
    const { ageYears: ages, sdMm } = baselines.spread[method][measure][noise][sex];
    const h = baselines.horizonsYears.indexOf(aheadYears);
    const after = ages.findIndex((age) => age >= ageYears);
    if (after < 0) return sdMm[ages.length - 1][h];
    if (after === 0) return sdMm[0][h];
    const f = (ageYears - ages[after - 1]) / (ages[after] - ages[after - 1]);
    return sdMm[after - 1][h] * (1 - f) + sdMm[after][h] * f;
  };
}
