import prand from 'pure-rand';

/** A seeded stream of chance: the same seed gives the same numbers on every machine. */
export interface RandomStream {
  /** Uniform on (0, 1). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
}

/** xoroshiro128+ for the uniforms; Marsaglia's polar method (1964) for the normals. */
export function randomStream(seed: number): RandomStream {
  const rng = prand.xoroshiro128plus(seed);
  let spare = Number.NaN;
  const uniform = () => ((rng.unsafeNext() >>> 0) + 0.5) / 4294967296;
  return {
    uniform,
    normal() {
      if (!Number.isNaN(spare)) {
        const kept = spare;
        spare = Number.NaN;
        return kept;
      }
      for (;;) {
        const u = 2 * uniform() - 1;
        const v = 2 * uniform() - 1;
        const s = u * u + v * v;
        if (s >= 1 || s === 0) continue;
        const f = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * f;
        return u * f;
      }
    },
  };
}
