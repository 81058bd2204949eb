import { type MeasureId, technicalErrorAt } from '../../records/measure.js';
import { curveOf } from '../../reference/reference.js';
import type { References } from '../../reference/reference-curve.js';
import { tabulate } from './curve-table.js';
import { ageOfLogAge, logAge } from './growth-age.js';
import { isLogMeasure } from './growth-scale.js';
import type { GrowthParameters } from './parameters.js';
import type { SexCurves } from './sex-curves.js';

/** However large the measurement error, at least this share of a reference's variance is held to be real. */
const LEAST_TRUE_SHARE = 0.35;
/** Error of one ankle height (sphyrion) reading in the survey behind the reference, mm; the design's figure. */
const SURVEY_ERROR: Partial<Record<MeasureId, number>> = { ankle_height: 9 };

/**
 * A sex's median and SD curves on the model's scale. Before a reference's first age the curve goes on in
 * proportion to stature, after its last it stands still.
 */
export function referenceCurves(refs: References, sex: 'male' | 'female', p: GrowthParameters): SexCurves {
  const stature = curveOf(refs, 'stature', sex);
  const curves = p.measures.map((id) => {
    const curve = curveOf(refs, id, sex);
    if (!curve || !stature) throw new Error(`no ${sex} reference for ${id}`);
    const held = (age: number) => Math.min(Math.max(age, curve.fromYears), curve.toYears);
    const start = Math.max(curve.fromYears, stature.fromYears);
    const younger = (age: number) =>
      age >= start ? 1 : stature.at(Math.max(age, stature.fromYears)).m / stature.at(start).m;
    const at = (x: number) => {
      const age = ageOfLogAge(x);
      const { m, s } = curve.at(held(age));
      const size = m * younger(age);
      const error = SURVEY_ERROR[id] ?? technicalErrorAt(id, age);
      const trueShare = Math.max(LEAST_TRUE_SHARE, 1 - (error / (s * size)) ** 2);
      const relative = s * Math.sqrt(trueShare);
      return isLogMeasure(id)
        ? { median: Math.log(size), sd: relative }
        : { median: size, sd: relative * size };
    };
    return { median: tabulate((x) => at(x).median), sd: tabulate((x) => at(x).sd) };
  });
  return {
    sex,
    median: curves.map((c) => c.median),
    sd: curves.map((c) => c.sd),
    peakVelocityAgeYears: p.peakVelocityAgeYears[sex],
    growthEnd: logAge(p.growthEndYears[sex]),
  };
}
