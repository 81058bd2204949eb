import type { MeasureId } from '../../records/measure.js';
import type { GrowthParameters } from './parameters.js';
import type { SexCurves } from './sex-curves.js';
import type { Submodel } from './submodel.js';

/** A loaded growth model: references made into curves, and the submodels that say how children move on them. */
export interface GrowthModel {
  readonly name: string;
  readonly version: string;
  /** What the model was made from. */
  readonly parameters: GrowthParameters;
  readonly measures: readonly MeasureId[];
  readonly index: ReadonlyMap<MeasureId, number>;
  readonly curves: Readonly<Record<'male' | 'female', SexCurves>>;
  readonly submodels: Readonly<Record<'male' | 'female', readonly Submodel[]>>;
  /** z-score of a size against the reference at a reference age, or null outside its ages. */
  zScore(sex: 'male' | 'female', measure: MeasureId, ageYears: number, value: number): number | null;
}
