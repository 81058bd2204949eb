import { toScale } from '../../growth/population/growth-scale.js';
import type { LongitudinalPopulation } from '../../growth/population/longitudinal-population.js';
import type { GrowthParameters } from '../../growth/population/parameters.js';
import type { MeasureId } from '../../records/measure.js';
import { curveOf, type References } from '../../reference/reference.js';
import { fitLongitudinal } from './fit-longitudinal.js';
import type { FollowedChild, FollowedRow } from './followed-records.js';
import { growthSettings as settings } from './growth-settings.js';
import type { InfantResidual } from './infant-residual.js';
import { startingLongitudinal } from './starting-longitudinal.js';

export interface GrowthFitInput {
  readonly name: string;
  readonly version: string;
  readonly seed: number;
  readonly cohort: readonly FollowedChild[];
  readonly correlation: readonly (readonly number[])[];
  readonly infants: InfantResidual;
}

/** Error of the cohort's records on the model's scale: they look smoothed, but less so before 8 years. */
function recordErrorSd({ measure, ageYears }: FollowedRow): number {
  if (measure === 'weight') return 0.005;
  if (measure === 'leg_length') return 1.5;
  return ageYears < 8 ? 5 : 1;
}

/** Everything that parameters.json holds, estimated from the cohort. */
export function fitGrowthModel(
  input: GrowthFitInput,
  refs: References,
  onIteration?: (iteration: number, logLikelihood: number) => void,
): GrowthParameters {
  const start = startingLongitudinal(input.cohort, {
    centreYears: settings.peakVelocityAgeYears,
    reference: referenceMedian(refs),
  });
  const population = fitLongitudinal(input.cohort, start, {
    iterations: settings.iterations,
    tempoPoints: settings.gridPoints.tempo,
    intensityPoints: settings.gridPoints.intensity,
    errorSd: recordErrorSd,
    priorChildren: settings.priorChildren,
    effectRidge: settings.effectRidge,
    centreYears: settings.peakVelocityAgeYears,
    onIteration,
  });
  const covariance = population.covariance.map((row) => row.map((v) => v * settings.spreadFactor));
  return parametersWith(input, { ...population, covariance });
}

function parametersWith(input: GrowthFitInput, longitudinal: LongitudinalPopulation): GrowthParameters {
  const { infants } = input;
  const { zScore, tempo } = settings;
  return rounded({
    name: input.name,
    version: input.version,
    seed: input.seed,
    measures: [...settings.measures],
    correlation: input.correlation.map((r) => [...r]),
    zScore: { ...zScore, sizeShare: infants.sizeShare, lengthScale: infants.lengthScale },
    tempo: { ...tempo, infantSd: infants.sd, infantLength: infants.lengthScale },
    crossSectional: { ...settings.crossSectional },
    zScoreShare: { male: [...settings.zScoreShare.male], female: [...settings.zScoreShare.female] },
    peakVelocityAgeYears: { ...settings.peakVelocityAgeYears },
    growthEndYears: { ...settings.growthEndYears },
    longitudinal: {
      ...longitudinal,
      residualSd: longitudinal.residualSd.map((sd) => sd * settings.residualFactor),
    },
    offsets: [],
  });
}

/** Reference medians on the model's scale, held beyond the reference's ages. */
function referenceMedian(refs: References) {
  return (measure: MeasureId, sex: 'male' | 'female', ageYears: number): number => {
    const curve = curveOf(refs, measure, sex);
    if (!curve) throw new Error(`no ${sex} reference for ${measure}`);
    return toScale(measure, curve.at(Math.min(Math.max(ageYears, curve.fromYears), curve.toYears)).m);
  };
}

/** Seven significant digits: more would be noise of the estimate. */
function rounded<T>(value: T): T {
  return JSON.parse(JSON.stringify(value, (_, v) => (typeof v === 'number' ? Number(v.toPrecision(7)) : v)));
}
