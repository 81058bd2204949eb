import * as tf from '@tensorflow/tfjs-core';
import { tensorBackend } from './tensor-backend.js';

/** One group's components: whitened residuals z = R^-1 (y - mean), ln det of the covariance, ln prior. */
export interface MixtureGroup {
  readonly whitened: readonly ArrayLike<number>[];
  readonly logDeterminant: ArrayLike<number>;
  readonly logPrior: ArrayLike<number>;
}

/**
 * Posterior weights of Gaussian components for many groups at once: prior times normal density, normalised by
 * log-sum-exp. Groups are padded to the longest; a padded component has no weight. Whitening is done before, in
 * float64, so that float32 only meets numbers of the size of one.
 */
export async function batchedMixtureWeights(groups: readonly MixtureGroup[]): Promise<Float32Array[]> {
  await tensorBackend();
  const c = groups.length;
  const k = Math.max(...groups.map((g) => g.whitened.length));
  const n = Math.max(1, ...groups.map((g) => g.whitened[0]?.length ?? 0));
  const z = new Float32Array(c * k * n);
  const rest = new Float32Array(c * k).fill(-1e30);
  groups.forEach((g, i) => {
    // The largest of prior and determinant is taken out in float64: only differences matter.
    const own = Array.from(g.logPrior, (p, j) => p - 0.5 * g.logDeterminant[j]);
    const top = Math.max(...own);
    own.forEach((v, j) => {
      rest[i * k + j] = v - top;
      z.set(Float32Array.from(g.whitened[j]), (i * k + j) * n);
    });
  });
  const weights = tf.tidy(() => {
    const square = tf.sum(tf.square(tf.tensor3d(z, [c, k, n])), 2);
    return tf.softmax(tf.sub(tf.tensor2d(rest, [c, k]), tf.mul(square, 0.5)), 1);
  });
  const values = (await weights.data()) as Float32Array;
  weights.dispose();
  return groups.map((g, i) => values.slice(i * k, i * k + g.whitened.length));
}
