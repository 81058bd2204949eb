import type { MeasureId } from '../records/measure.js';
import type { SurveyRecord } from './survey-records.js';

/** Ages so near count as one age's children, SD in years. */
const NEAR_YEARS = 0.4;

/**
 * A measure as it would be were each age's children as tall as children of that age are. A survey's boys of 14 were 3 %
 * short and those of 15 were not: taken as they stand, feet grew on to 18 because taller boys were measured there.
 * The regression estimator (Cochran 1977, Sampling Techniques, ch. 7 - from memory), on logarithms: the slope is that of
 * the measure on stature among children of one age. Moves medians, leaves the spread.
 */
export function atReferenceStature(
  group: readonly SurveyRecord[],
  measure: MeasureId,
  statureMm: (ageYears: number) => number,
): (record: SurveyRecord) => number | undefined {
  const both = group.flatMap(({ ageYears, values }) => {
    const [size, stature] = [values[measure], values.stature];
    if (size === undefined || stature === undefined) return [];
    return [{ ageYears, size: Math.log(size), tall: Math.log(stature / statureMm(ageYears)) }];
  });
  const near = (ageYears: number) => {
    let [weight, size, tall] = [0, 0, 0];
    for (const r of both) {
      const w = Math.exp(-0.5 * ((r.ageYears - ageYears) / NEAR_YEARS) ** 2);
      weight += w;
      size += w * r.size;
      tall += w * r.tall;
    }
    return { size: size / weight, tall: tall / weight };
  };
  let [products, squares] = [0, 0];
  for (const r of both) {
    const mean = near(r.ageYears);
    products += (r.tall - mean.tall) * (r.size - mean.size);
    squares += (r.tall - mean.tall) ** 2;
  }
  const slope = squares > 0 ? products / squares : 0;
  return ({ ageYears, values }) => {
    const size = values[measure];
    return size === undefined ? undefined : size * Math.exp(-slope * near(ageYears).tall);
  };
}
