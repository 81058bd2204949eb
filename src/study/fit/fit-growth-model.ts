import type { AnchorPopulation } from '../../growth/population/anchor-population.js';
import { toScale } from '../../growth/population/growth-scale.js';
import type { GrowthParameters } from '../../growth/population/parameters.js';
import type { MeasureId } from '../../records/measure.js';
import { curveOf, type References } from '../../reference/reference.js';
import type { SurveyRecord } from '../../reference/survey-records.js';
import type { AnchorChild, AnchorRow } from './anchor-records.js';
import { fitAnchors } from './fit-anchors.js';
import { growthSettings as settings } from './growth-settings.js';
import type { InfantWandering } from './infant-wandering.js';
import { sizeCorrelation } from './size-correlation.js';
import { startingAnchors } from './starting-anchors.js';

export interface GrowthFitInput {
  readonly name: string;
  readonly version: string;
  readonly seed: number;
  readonly cohort: readonly AnchorChild[];
  readonly correlation: readonly (readonly number[])[];
  readonly infants: InfantWandering | null;
}

/** Error of the cohort's records on the model's scale: they look smoothed, but less so before 8 years. */
function recordErrorSd({ measure, ageYears }: AnchorRow): number {
  if (measure === 'weight') return 0.005;
  if (measure === 'leg_length') return 1.5;
  return ageYears < 8 ? 5 : 1;
}

/** Everything that parameters.json holds, estimated from the cohort. */
export function fitGrowthModel(
  input: GrowthFitInput,
  refs: References,
  onIteration?: (iteration: number, logLikelihood: number) => void,
): { parameters: GrowthParameters; logLikelihood: number } {
  const start = startingAnchors(input.cohort, {
    centreYears: settings.peakVelocityAgeYears,
    reference: referenceMedian(refs),
  });
  const { population, logLikelihood } = fitAnchors(input.cohort, start, {
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
  return { parameters: parametersWith(input, { ...population, covariance }), logLikelihood };
}

/** The same parameters around another population. */
export function parametersWith(input: GrowthFitInput, anchors: AnchorPopulation): GrowthParameters {
  const { infants } = input;
  const { zScore, tempo } = settings;
  return rounded({
    name: input.name,
    version: input.version,
    seed: input.seed,
    measures: [...settings.measures],
    correlation: input.correlation.map((r) => [...r]),
    zScore: infants
      ? { ...zScore, sizeShare: infants.sizeShare, lengthScale: infants.lengthScale }
      : { ...zScore },
    tempo: infants ? { ...tempo, infantSd: infants.sd, infantLength: infants.lengthScale } : { ...tempo },
    followers: { ...settings.followers },
    zScoreShare: { male: [...settings.zScoreShare.male], female: [...settings.zScoreShare.female] },
    peakVelocityAgeYears: { ...settings.peakVelocityAgeYears },
    growthEndYears: { ...settings.growthEndYears },
    anchors: { ...anchors, wanderSd: anchors.wanderSd.map((sd) => sd * settings.wanderFactor) },
    offsets: [],
  });
}

export const correlationOf = (records: readonly SurveyRecord[], refs: References): number[][] =>
  sizeCorrelation(records, settings.measures, refs);

/** Reference medians on the model's scale, held beyond the reference's ages. */
export function referenceMedian(refs: References) {
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
