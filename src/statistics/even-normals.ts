import { normalQuantile } from './normal-quantile.js';
import { randomStream } from './random-stream.js';

/** Directions that are filled evenly, the choice among alternatives first; further ones are left to chance. */
const EVEN = 8;
/** Powers of the root of x^(EVEN + 1) = x + 1 make a sequence that fills EVEN directions evenly (Roberts 2018). */
const STEPS = (() => {
  let root = 1.5;
  for (let i = 0; i < 60; i++) root = (1 + root) ** (1 / (EVEN + 1));
  return Float64Array.from({ length: EVEN }, (_, j) => root ** -(j + 1));
})();

/** Quantiles at the middles of this many equal shares: finer than any number of draws asks for. */
const SHARES = 1 << 16;
/** The same quantiles over and over in random order: chance made once for all. */
const BANK = 1 << 18;

interface Tables {
  readonly ascending: Float32Array;
  readonly shuffled: Float32Array;
}
let made: Tables | null = null;
function tables(): Tables {
  if (made) return made;
  const ascending = Float32Array.from({ length: SHARES }, (_, i) => normalQuantile((i + 0.5) / SHARES));
  const shuffled = Float32Array.from({ length: BANK }, (_, i) => ascending[i % SHARES]);
  const { uniform } = randomStream(1);
  for (let i = BANK - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1));
    const kept = shuffled[i];
    shuffled[i] = shuffled[j];
    shuffled[j] = kept;
  }
  made = { ascending, shuffled };
  return made;
}

export interface EvenNormals {
  /** Per draw, uniform on (0, 1), spread evenly over all draws and any run of them. */
  readonly choice: Float64Array;
  /** Writes a draw's first `width` standard normals; those of the first directions are spread evenly over the draws. */
  write(draw: number, width: number, into: Float32Array, at: number): void;
}

/**
 * Standard normals that fill space more evenly than chance does, so that fewer draws do: an additive recurrence
 * with a random start in the first directions (Cranley & Patterson 1976), chance in the rest.
 */
export function evenNormals(draws: number, seed: number): EvenNormals {
  const { ascending, shuffled } = tables();
  const chance = randomStream(seed);
  const at = Float64Array.from(STEPS, () => chance.uniform());
  const rest = EVEN - 1;
  const choice = new Float64Array(draws);
  const even = new Float32Array(draws * rest);
  const from = new Float64Array(draws);
  for (let i = 0; i < draws; i++) {
    for (let j = 0; j < EVEN; j++) {
      const next = at[j] + STEPS[j];
      at[j] = next >= 1 ? next - 1 : next;
    }
    choice[i] = at[0];
    for (let j = 0; j < rest; j++) even[i * rest + j] = ascending[(at[j + 1] * SHARES) | 0];
    from[i] = chance.uniform();
  }
  return {
    choice,
    write(draw, width, into, to) {
      const first = Math.min(width, rest);
      for (let j = 0; j < first; j++) into[to + j] = even[draw * rest + j];
      const start = Math.floor(from[draw] * (BANK - width));
      for (let j = rest; j < width; j++) into[to + j] = shuffled[start + j];
    },
  };
}
