import { measureIds } from '../../records/measure.js';
import { surveyMeasures } from '../../reference/survey-records.js';

/** Choices that no record decides; the estimates are put beside them in models/<name>/parameters.json. */
export const growthSettings = {
  measures: measureIds.filter((id) => surveyMeasures.includes(id)),
  /** Mean ages at peak height velocity (from memory); where the curves of both sexes are laid together. */
  peakVelocityAgeYears: { male: 13.8, female: 11.8 },
  growthEndYears: { male: 17.5, female: 15.5 },
  /**
   * Until about 2 years a child is on its own centile; then the tempo population takes over. By 3 already, its bands
   * held 61-69 % at 3 years and boys' stature quickened at 2.5; by 4 they hold 88-94 % and nothing quickens.
   */
  zScoreShare: {
    male: [
      { ageYears: 2.4, share: 1 },
      { ageYears: 4, share: 0 },
    ],
    female: [
      { ageYears: 2.4, share: 1 },
      { ageYears: 4, share: 0 },
    ],
  },
  crossSectional: { ownSizeShare: 0.8, ownSizeShareSoftTissue: 0.65, ownLength: 0.25, widen: 1.1 },
  zScore: { sizeShare: 0.7, lengthScale: 0.5, residualSharing: 0.7, sideResidual: 0.3, headWiden: 1.25 },
  tempo: {
    tempoPoints: 9,
    intensityPoints: 7,
    residualSharing: 0.6,
    sideResidual: 0.3,
    infantSd: 0.55,
    infantUntilYears: 3,
    infantLength: 0.5,
  },
  /** Calendar residual against the estimate's: makes 80 % bands cover 80 % of children left out. */
  residualFactor: 1.25,
  /** Variance of children's own shapes against the estimate's, which 68 children leave too small; likewise. */
  spreadFactor: 1.15,
  iterations: 12,
  gridPoints: { tempo: 17, intensity: 9 },
  priorChildren: 60,
  effectRidge: 2,
} as const;
