import type { MeasureId } from '../records/measure.js';
import { normalCdf } from '../statistics/normal-cdf.js';
import { curveOf, lmsAt, zScore } from './reference.js';
import type { References } from './reference-curve.js';
import type { SurveyRecord } from './survey-records.js';
import { surveyMeasures } from './survey-records.js';

/** Age bands of the check, years: the first age is in, the last is not. */
export const checkBands = [
  [2, 5],
  [5, 8],
  [8, 11],
  [11, 14],
  [14, 18],
] as const;
/** Centiles a share is reported below. */
export const checkCentiles = [3, 10, 25, 50, 75, 90, 97] as const;
const sexes = ['male', 'female', 'all'] as const;

export interface ShareRow {
  readonly measure: MeasureId;
  readonly sex: (typeof sexes)[number];
  /** '2-5': from the second birthday up to the fifth. */
  readonly band: string;
  readonly n: number;
  /** Folder in reference-data the centiles come from. */
  readonly source: string;
  /** Share (0 to 1) of the records below each centile; null where there is no record. */
  readonly below: Readonly<Record<string, number | null>>;
}

/** What share of a survey's records lies below each centile of the reference, by measure, sex and age band. */
export function surveyShares(
  refs: References,
  records: readonly SurveyRecord[],
  measures: readonly MeasureId[] = surveyMeasures,
): ShareRow[] {
  return measures.flatMap((measure) =>
    checkBands.flatMap(([from, to]) => {
      const points = records.flatMap(({ sex, ageYears, values }) => {
        const value = values[measure];
        if (value === undefined || ageYears < from || ageYears >= to) return [];
        const lms = lmsAt(refs, measure, sex, ageYears);
        return lms ? [{ sex, centile: 100 * normalCdf(zScore(lms, value)) }] : [];
      });
      return sexes.map((sex) => {
        const group = sex === 'all' ? points : points.filter((p) => p.sex === sex);
        const below = checkCentiles.map((c) => [
          String(c),
          group.length === 0 ? null : group.filter((p) => p.centile < c).length / group.length,
        ]);
        return {
          measure,
          sex,
          band: `${from}-${to}`,
          n: group.length,
          below: Object.fromEntries(below),
          source: curveOf(refs, measure, 'male')?.source ?? refs.source,
        };
      });
    }),
  );
}
