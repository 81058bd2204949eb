import type { MeasureId } from '../../records/measure.js';

/** One child's serial records, on the model's scale, for estimating population parameters. */
export interface AnchorChild {
  readonly sex: 'male' | 'female';
  readonly rows: readonly AnchorRow[];
}
export interface AnchorRow {
  readonly measure: MeasureId;
  readonly ageYears: number;
  readonly value: number;
}
