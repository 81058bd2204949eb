import type { GridPoint } from './member.js';
import type { Candidate, World } from './worlds.js';

const TEMPO_POINTS = 13;
const INTENSITY_POINTS = 9;
/** The fine grid reaches this many posterior SD to both sides of the mean. */
const REACH = 3.2;
const FARTHEST = 3.6;

/**
 * A finer grid where the coarse one found the child: evenly spaced over the posterior's mean +- 3.2 SD, never
 * narrower than a coarse cell to each side. A point stands for its cell: prior density times area.
 */
export function refineGrid(candidates: readonly Candidate[], coarse: readonly World[]): Candidate[] {
  return candidates.map((c) => {
    if (c.grid.length === 1) return c;
    const found = coarse.filter((w) => w.member === c.member && w.sex === c.sex);
    const total = found.reduce((s, w) => s + w.weight, 0);
    if (total === 0) return { ...c, grid: [] };
    const line = (pick: (g: GridPoint) => number, n: number) => {
      const mean = found.reduce((s, w) => s + w.weight * pick(w.at), 0) / total;
      const variance = found.reduce((s, w) => s + w.weight * (pick(w.at) - mean) ** 2, 0) / total;
      const values = [...new Set(c.grid.map(pick))].sort((a, b) => a - b);
      const cell = values[1] - values[0];
      const reach = Math.max(REACH * Math.sqrt(variance), cell);
      const low = Math.max(-FARTHEST, mean - reach);
      const high = Math.min(FARTHEST, mean + reach);
      return {
        at: Array.from({ length: n }, (_, i) => low + ((high - low) * i) / (n - 1)),
        step: (high - low) / (n - 1),
      };
    };
    const tempo = line((g) => g.tempo, TEMPO_POINTS);
    const intensity = line((g) => g.intensity, INTENSITY_POINTS);
    const area = Math.log(tempo.step * intensity.step);
    const grid = tempo.at.flatMap((b) =>
      intensity.at.map((g) => ({ tempo: b, intensity: g, logPrior: area - 0.5 * (b * b + g * g) })),
    );
    return { ...c, grid };
  });
}
