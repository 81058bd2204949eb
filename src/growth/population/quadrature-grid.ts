import type { GridPoint } from './submodel.js';

/** Evenly spaced points over +-3 prior SD of tempo and intensity, weighed by their standard normal density. */
export function quadratureGrid(tempoPoints: number, intensityPoints: number, span = 3): GridPoint[] {
  const line = (n: number) =>
    Array.from({ length: n }, (_, i) => (n === 1 ? 0 : span * ((2 * i) / (n - 1) - 1)));
  const out = line(tempoPoints).flatMap((tempo) =>
    line(intensityPoints).map((intensity) => ({
      tempo,
      intensity,
      logPrior: -0.5 * (tempo ** 2 + intensity ** 2),
    })),
  );
  const total = Math.log(out.reduce((s, g) => s + Math.exp(g.logPrior), 0));
  return out.map((g) => ({ ...g, logPrior: g.logPrior - total }));
}
