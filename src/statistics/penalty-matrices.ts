/** Square matrices of a penalised fit, dense and small: the roughness of P-splines, and the system they are solved in. */
import { cholesky, choleskySolve } from './cholesky.js';

export const zeros = (n: number) => Array.from({ length: n }, () => new Float64Array(n));

export function differencePenalty(size: number, order: number): Float64Array[] {
  let difference: number[][] = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)),
  );
  for (let k = 0; k < order; k++)
    difference = difference.slice(1).map((row, i) => row.map((v, j) => v - difference[i][j]));
  const out = zeros(size);
  for (const row of difference)
    for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) out[i][j] += row[i] * row[j];
  return out;
}

export function addBlock(into: Float64Array[], block: Float64Array[], start: number, times: number) {
  for (let i = 0; i < block.length; i++)
    for (let j = 0; j < block.length; j++) into[start + i][start + j] += times * block[i][j];
  return into;
}
export const multiply = (a: Float64Array[], b: Float64Array) =>
  Float64Array.from(a, (row) => row.reduce((sum, v, j) => sum + v * b[j], 0));
export const quadratic = (a: Float64Array[], b: Float64Array) =>
  multiply(a, b).reduce((sum, v, i) => sum + v * b[i], 0);
export const blockQuadratic = (block: Float64Array[], b: Float64Array, start: number) =>
  quadratic(block, b.slice(start, start + block.length));

export function traceOfProduct(inverse: Float64Array[], block: Float64Array[], start: number) {
  let sum = 0;
  for (let i = 0; i < block.length; i++)
    for (let j = 0; j < block.length; j++) sum += inverse[start + i][start + j] * block[j][i];
  return sum;
}

/** Trace of (smoothing block + ridge I)^-1 block: what the penalty itself leaves free, before any record. */
export function priorTrace(block: Float64Array[], smoothing: number, ridge: number, order: number): number {
  if (ridge === 0) return (block.length - order) / smoothing;
  const prior = block.map((row, i) => row.map((v, j) => smoothing * v + (i === j ? ridge : 0)));
  return traceOfProduct(inverseOf(factorOf(prior)), block, 0);
}

/** Expected information can be near singular where records are few: a ridge grows until it factors. */
export function factorOf(system: Float64Array[]) {
  for (let ridge = 1e-8; ridge < 1e6; ridge *= 100) {
    const factor = cholesky(
      system.map((row, i) => row.map((v, j) => (i === j ? v * (1 + ridge) + ridge : v))),
    );
    if (factor) return factor;
  }
  throw new RangeError('the information matrix of the LMS fit cannot be factored');
}

export function inverseOf(factor: Float64Array[]): Float64Array[] {
  const n = factor.length;
  return Array.from({ length: n }, (_, i) => {
    const unit = new Float64Array(n);
    unit[i] = 1;
    return choleskySolve(factor, unit);
  });
}
