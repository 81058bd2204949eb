import { type MeasureId, measures } from '../../records/measure.js';

/**
 * The scale a measure is Gaussian on inside the growth model: its own unit for bones, whose spread is
 * symmetric, and the natural logarithm for girths and weight, whose spread is not.
 */
export function isLogMeasure(id: MeasureId): boolean {
  return !measures[id].skeletal;
}

/** From mm or kg to the model's scale. */
export function toScale(id: MeasureId, value: number): number {
  return isLogMeasure(id) ? Math.log(value) : value;
}

/** From the model's scale to mm or kg. */
export function fromScale(id: MeasureId, scaled: number): number {
  return isLogMeasure(id) ? Math.exp(scaled) : scaled;
}

/** An SD in mm or kg at a size, on the model's scale. */
export function sdToScale(id: MeasureId, sd: number, size: number): number {
  return isLogMeasure(id) ? sd / size : sd;
}
