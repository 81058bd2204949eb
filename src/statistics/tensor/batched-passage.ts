import * as tf from '@tensorflow/tfjs-core';
import { tensorBackend } from './tensor-backend.js';

/** Draws of one Gaussian world over several series, all in one unit per series. */
export interface PassageGroup {
  /** Standard normals, draws x (series x knots), row-major. */
  readonly normals: Float64Array;
  readonly draws: number;
  readonly mean: Float64Array;
  /** Lower triangular factor, (series x knots) squared. */
  readonly factor: Float64Array;
  /** Series x times. */
  readonly expected: Float64Array;
}

export interface PassageJob {
  readonly groups: readonly PassageGroup[];
  /** knots x times: how a value at a time is read between knots. */
  readonly interpolation: Float64Array;
  readonly knots: number;
  readonly times: number;
  /** Per series: the limit on the gain since `from`, whether the path never falls, whether it is a logarithm. */
  readonly limit: readonly number[];
  readonly monotone: readonly boolean[];
  readonly logarithm: readonly boolean[];
  /** Index of the time gains count from; passage is looked for from `search` on. */
  readonly from: number;
  readonly search: number;
}

const FAR = 1e30;

/**
 * Chance that any series has gained more than its limit by each time, for many jobs at once: sampled paths, running
 * maximum, first passage, all as tensors padded to the largest job. One array over times per job.
 */
export async function batchedPassage(jobs: readonly PassageJob[]): Promise<Float64Array[]> {
  await tensorBackend();
  const groups = jobs.flatMap((job, j) => job.groups.map((g) => ({ g, job, j })));
  const G = groups.length;
  const S = Math.max(...jobs.map((j) => j.limit.length));
  const K = Math.max(...jobs.map((j) => j.knots));
  const T = Math.max(...jobs.map((j) => j.times));
  const M = Math.max(...groups.map(({ g }) => g.draws));
  const Q = S * K;
  const normals = new Float32Array(G * M * Q);
  const factor = new Float32Array(G * Q * Q);
  const mean = new Float32Array(G * Q);
  const expected = new Float32Array(G * S * T);
  const between = new Float32Array(G * K * T);
  const limit = new Float32Array(G * S).fill(FAR);
  const rising = new Float32Array(G * S);
  const logarithm = new Float32Array(G * S);
  const start = new Float32Array(G * T);
  const open = new Float32Array(G * T);
  groups.forEach(({ g, job }, i) => {
    const { knots: k, times: t } = job;
    const s = job.limit.length;
    const at = (a: number) => Math.floor(a / k) * K + (a % k);
    for (let a = 0; a < s * k; a++) {
      mean[i * Q + at(a)] = g.mean[a];
      for (let b = 0; b <= a; b++) factor[(i * Q + at(a)) * Q + at(b)] = g.factor[a * s * k + b];
      for (let d = 0; d < g.draws; d++) normals[(i * M + d) * Q + at(a)] = g.normals[d * s * k + a];
    }
    for (let a = 0; a < k; a++) between.set(job.interpolation.subarray(a * t, (a + 1) * t), (i * K + a) * T);
    for (let a = 0; a < s; a++) {
      // A plain series is moved so that it starts near zero, where float32 is finest.
      const shift = job.logarithm[a] ? 0 : g.expected[a * t + job.from];
      for (let c = 0; c < t; c++) expected[(i * S + a) * T + c] = g.expected[a * t + c] - shift;
      limit[i * S + a] = job.limit[a];
      rising[i * S + a] = +job.monotone[a];
      logarithm[i * S + a] = +job.logarithm[a];
    }
    start[i * T + job.from] = 1;
    open.fill(1, i * T + job.search, i * T + t);
  });
  const passed = tf.tidy(() => {
    const bend = tf.add(
      tf.matMul(tf.tensor3d(normals, [G, M, Q]), tf.tensor3d(factor, [G, Q, Q]), false, true),
      tf.tensor3d(mean, [G, 1, Q]),
    );
    const deviation = tf.matMul(tf.reshape(bend, [G, M * S, K]), tf.tensor3d(between, [G, K, T]));
    const scaled = tf.add(tf.reshape(deviation, [G, M, S, T]), tf.tensor4d(expected, [G, 1, S, T]));
    const isLog = tf.tensor4d(logarithm, [G, 1, S, 1]);
    const size = tf.add(tf.mul(isLog, tf.exp(tf.mul(scaled, isLog))), tf.mul(tf.sub(1, isLog), scaled));
    const up = tf.tensor4d(rising, [G, 1, S, 1]);
    const path = tf.add(tf.mul(up, runningMaximum(size)), tf.mul(tf.sub(1, up), size));
    const first = tf.sum(tf.mul(path, tf.tensor4d(start, [G, 1, 1, T])), 3, true);
    const over = tf.greater(tf.sub(path, first), tf.tensor4d(limit, [G, 1, S, 1]));
    const any = tf.mul(tf.max(tf.cast(over, 'float32'), 2), tf.tensor3d(open, [G, 1, T]));
    return runningMaximum(any);
  });
  const values = (await passed.data()) as Float32Array;
  passed.dispose();
  const out = jobs.map((job) => new Float64Array(job.times));
  const total = jobs.map((job) => job.groups.reduce((sum, g) => sum + g.draws, 0));
  groups.forEach(({ g, job, j }, i) => {
    for (let d = 0; d < g.draws; d++)
      for (let t = 0; t < job.times; t++) out[j][t] += values[(i * M + d) * T + t] / total[j];
  });
  return out;
}

/** Running maximum along the last axis by doubling: after shifts of 1, 2, 4 ... every earlier value has had its say. */
function runningMaximum<R extends tf.Rank>(x: tf.Tensor<R>): tf.Tensor<R> {
  const length = x.shape[x.shape.length - 1];
  let out = x as tf.Tensor;
  for (let shift = 1; shift < length; shift *= 2) {
    const begin = x.shape.map(() => 0);
    const kept = [...x.shape];
    kept[kept.length - 1] = length - shift;
    const pad = x.shape.map((_, axis): [number, number] =>
      axis === x.shape.length - 1 ? [shift, 0] : [0, 0],
    );
    out = tf.maximum(out, tf.pad(tf.slice(out, begin, kept), pad, -FAR));
  }
  return out as tf.Tensor<R>;
}
