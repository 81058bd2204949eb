import { learnPopulationOffset } from '../../growth/child/learn-population-offset.js';
import type { GrowthInput } from '../../growth/contract.js';
import { readTable, tabulate } from '../../growth/population/curve-table.js';
import { deconvolveMedian } from '../../growth/population/deconvolve-median.js';
import { logAge } from '../../growth/population/growth-age.js';
import { growthModel } from '../../growth/population/model.js';
import type { GrowthParameters } from '../../growth/population/parameters.js';
import { loadReferenceSource, type References } from '../../reference/reference.js';
import { type GrowthFitInput, parametersWith, referenceMedian } from './fit-growth-model.js';
import { growthSettings as settings } from './growth-settings.js';
import { meanCoefficients } from './mean-coefficients.js';
import { startingLongitudinal } from './starting-longitudinal.js';

/**
 * Leg length's shape over age: the survey behind the working reference is thin and noisy where legs stop growing.
 * Dangour et al. 2002, Ann Hum Biol 29:60.
 */
const LEG_SHAPE = 'uk-1990';

/** Nothing narrows the residual where no cohort was learned from. */
const RESIDUAL_FACTOR = 1.6;

/**
 * A model whose mean curves come from the references alone: medians deconvolved, spread as designed. A caseload may
 * then move the curves by three numbers per measure and sex.
 */
export function referencesOnly(
  input: GrowthFitInput,
  refs: References,
  caseload: readonly GrowthInput[],
): GrowthParameters {
  const reference = withLegShape(referenceMedian(refs), loadReferenceSource(LEG_SHAPE));
  const start = startingLongitudinal([], {
    centreYears: settings.peakVelocityAgeYears,
    reference,
    residualFactor: RESIDUAL_FACTOR,
    lateResidual: 1,
  });
  const mean = (sex: 'male' | 'female') =>
    start.measures.flatMap((measure) => {
      const centre = logAge(settings.peakVelocityAgeYears[sex]);
      const tempo = {
        centre,
        tempoSd: start.tempoSd[sex],
        intensitySd: start.intensitySd[sex],
        warpFrom: logAge(start.warpFromYears),
        warpFull: logAge(start.warpFullYears),
      };
      const table = deconvolveMedian(
        tabulate((x) => reference(measure, sex, Math.exp(x) - 0.75)),
        tempo,
      );
      const rows = [];
      for (let u = start.knots[0]; u <= start.knots[start.knots.length - 1]; u += 0.01)
        rows.push({ u, value: readTable(table, u + centre) });
      return [...meanCoefficients(rows, start.knots)];
    });
  const longitudinal = { ...start, mean: { male: mean('male'), female: mean('female') } };
  const parameters = parametersWith(input, longitudinal);
  return caseload.length === 0
    ? parameters
    : learnPopulationOffset(growthModel(parameters, refs), caseload).parameters;
}

/** Leg length as one source shapes it, at the level of the other at the mean age of peak height velocity. */
function withLegShape(
  working: ReturnType<typeof referenceMedian>,
  shape: References,
): ReturnType<typeof referenceMedian> {
  const shaped = referenceMedian(shape);
  return (measure, sex, ageYears) => {
    if (measure !== 'leg_length') return working(measure, sex, ageYears);
    const centre = settings.peakVelocityAgeYears[sex];
    return (shaped(measure, sex, ageYears) * working(measure, sex, centre)) / shaped(measure, sex, centre);
  };
}
