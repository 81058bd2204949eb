import type { Prediction } from '../../growth/contract.js';

/**
 * Quantiles, by day, of what will be written down, when a prediction is of the true size: the band about its median is
 * wider by the error (SD, mm) that the record itself carries.
 */
export function recordedBand(
  prediction: Prediction,
  errorMm: readonly number[],
): (p: number) => Float64Array {
  const median = prediction.quantile(0.5);
  const widening = errorMm.map((error, j) => Math.hypot(1, error / Math.max(prediction.sd[j], 1e-3)));
  return (p) => prediction.quantile(p).map((q, j) => median[j] + (q - median[j]) * widening[j]);
}
