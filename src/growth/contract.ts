/**
 * What the growth room promises to the rooms below it. No device, no appointment, no clock, no hidden chance.
 */
import type { DayNumber, IsoDate } from '../records/dates.js';
import type { MeasureId, Series } from '../records/measure.js';
import type { ConditionId, MaturityMarker, Measurement, Sex } from '../records/records.js';

/** All that the growth model is told about a child. Nothing here may be dated after the forecast's `today`. */
export interface GrowthInput {
  readonly birthDate: IsoDate;
  readonly sex: Sex;
  readonly gestationWeeks: number | null;
  readonly conditions: readonly ConditionId[];
  readonly affectedSide: 'left' | 'right' | 'both' | 'none';
  readonly measurements: readonly Measurement[];
  readonly markers: readonly MaturityMarker[];
  /** Day growth hormone was started. */
  readonly hormoneFrom?: IsoDate | null;
  /** Day it was ended; null or absent while it goes on. */
  readonly hormoneTo?: IsoDate | null;
}

/** A child's predicted noise-free size of one series at given days; arrays run over days. */
export interface Prediction {
  readonly days: readonly DayNumber[];
  /** mm (kg for weight). */
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  /** Predictive quantile of the noise-free size at probability p in (0,1), per day. */
  quantile(p: number): Float64Array;
}

/** How likely each reading is a gross error (wrong unit, wrong side, a digit), given all the others. */
export interface Suspicion {
  readonly measurementId: string;
  readonly probability: number;
  /** What the model expected for that reading, with SD (technical error included). */
  readonly expected: number;
  readonly expectedSd: number;
}

/** From this probability a reading is held for a gross error, and shown so. */
export const GROSS = 0.5;

export interface ChildPosterior {
  readonly sex: Sex;
  readonly modelName: string;
  readonly modelVersion: string;
  /** Years by which this child is early (negative) or late (positive) against the mean age of peak height velocity. */
  readonly tempoYears: { readonly mean: number; readonly sd: number };
  /** Expected age at peak height velocity, years. */
  readonly peakVelocityAgeYears: { readonly mean: number; readonly sd: number };
  /** Probability that `series` will still grow by more than `mm` after `day`. */
  chanceOfFurtherGrowth(series: Series, day: DayNumber, mm: number): number;
  /** Sizes of some measures are asked for by a device and not foreseen: of those there is no prediction. */
  knows(measure: MeasureId): boolean;
  predict(series: Series, days: readonly DayNumber[]): Prediction;
  /** Mean and SD of many series on one day, as `predict` gives them one by one, for little more than the work of one. */
  predictOn(series: readonly Series[], day: DayNumber): { readonly mean: number; readonly sd: number }[];
  /**
   * Joint draws of the noise-free sizes: result[s] has draws*days.length values, row-major by draw
   * (value of draw i at days[j] is result[s][i*days.length + j]). Skeletal series never shrink along a path.
   * The same seed gives the same draws; draw i belongs to the same simulated child in every series.
   */
  sample(series: readonly Series[], days: readonly DayNumber[], draws: number, seed: number): Float64Array[];
  /** z-score of a size of this series at a day against the reference for the child's sex, or null outside its ages. */
  zScore(series: Series, day: DayNumber, value: number): number | null;
  readonly suspicions: readonly Suspicion[];
}

export type GrowthOutcome =
  | { readonly kind: 'posterior'; readonly posterior: ChildPosterior }
  /** No reading of any measure the model knows: only a population curve could be shown. */
  | { readonly kind: 'too-few-measurements'; readonly advice: string }
  | { readonly kind: 'past-reference-age'; readonly advice: string };

/** Implemented in fit-child.ts: `fitChild(input, model): GrowthOutcome`; model from `loadGrowthModel(name?)` in model.ts. */
