import type { MeasureId } from '../../records/measure.js';

/** One child's serial records, on the model's scale, for estimating population parameters. */
export interface FollowedChild {
  readonly sex: 'male' | 'female';
  readonly rows: readonly FollowedRow[];
}
export interface FollowedRow {
  readonly measure: MeasureId;
  readonly ageYears: number;
  readonly value: number;
}
