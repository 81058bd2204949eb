import { type CurveTable, readTable, TABLE_SIZE, tableLogAge } from './curve-table.js';
import { quadratureGrid } from './quadrature-grid.js';
import { stretchOf, type TempoSettings, tempoWarp } from './tempo-warp.js';

const ROUNDS = 3;
const GRID = quadratureGrid(7, 5, 2.6);

/**
 * The curve one child of mean tempo follows, from the median over children of all tempos. A median by age
 * smears the spurt, because early and late children are averaged; this undoes it by Van Cittert's iteration
 * (1931): expect the median from the curve, add the difference, a few times over so that noise does not grow.
 */
export function deconvolveMedian(median: CurveTable, tempo: TempoSettings): CurveTable {
  const weight = GRID.map((g) => Math.exp(g.logPrior));
  const positions = GRID.map((g) =>
    Float64Array.from({ length: TABLE_SIZE }, (_, i) =>
      maturityLogAge(tableLogAge(i), g.tempo, g.intensity, tempo),
    ),
  );
  let curve: CurveTable = Float64Array.from(median);
  for (let round = 0; round < ROUNDS; round++) {
    const next = Float64Array.from(curve, (v, i) => v + median[i]);
    for (let g = 0; g < GRID.length; g++)
      for (let i = 0; i < TABLE_SIZE; i++) next[i] -= weight[g] * readTable(curve, positions[g][i]);
    curve = next;
  }
  return curve;
}

/** Variance over tempo and intensity of a curve's value at a log-age. */
export function tempoVariance(
  value: (maturity: number, tempo: number, intensity: number) => number,
  x: number,
  tempo: TempoSettings,
): number {
  let mean = 0;
  let second = 0;
  for (const g of GRID) {
    const v = value(maturityLogAge(x, g.tempo, g.intensity, tempo), g.tempo, g.intensity);
    mean += Math.exp(g.logPrior) * v;
    second += Math.exp(g.logPrior) * v * v;
  }
  return Math.max(0, second - mean * mean);
}

/** tempoWarp as an absolute log-age: where on the sex's mean curve a child of this tempo is. */
export function maturityLogAge(
  x: number,
  tempo: number,
  intensity: number,
  s: TempoSettings,
  stretch = stretchOf(intensity, s),
): number {
  return s.centre + tempoWarp(x, tempo, intensity, s, stretch);
}
