import { floatsOf } from './floats-of.js';
import { normalQuantile } from './normal-quantile.js';
import { type RandomStream, randomStream } from './random-stream.js';
import { SOBOL_DIMENSIONS, sobol } from './sobol.js';

/** Directions that normals are kept for; what lies beyond them in a factor is made good in the others. */
export const WIDTH = 96;
/** Directions that share Sobol's points: the order of the rows, the first normals, the first uniforms. */
const EVEN_NORMALS = 7;
const EVEN_UNIFORMS = SOBOL_DIMENSIONS - 1 - EVEN_NORMALS;
const UNIFORMS = 64;
/** So many differently shuffled sets; signs make every child's own out of them. */
const VARIANTS = 8;

/**
 * Numbers for pairs of draws that fill space more evenly than chance does, so that fewer draws do. The second draw of a
 * pair takes every normal with the other sign and every uniform from the other end.
 */
export interface EvenNormals {
  /** pairs x WIDTH standard normals, row-major. In the order of the rows lies one more even direction. */
  readonly normals: Float32Array;
  /** Per direction 1 or -1: the seed's own sign. */
  readonly sign: Int8Array;
  /** Of every draw a uniform on (0, 1), and the standard normal at it: the same ones for all who ask for the line. */
  line(at: number): Line;
}

interface Line {
  readonly uniforms: Float64Array;
  readonly normals: Float64Array;
}

interface Table {
  readonly normals: Float32Array;
  /** Uniforms of the first draws of the pairs, line by line. */
  readonly uniforms: readonly Float64Array[];
  /** What was made of them for who asked. */
  readonly lines: Line[];
}
const made = new Map<string, Table>();

/**
 * Scrambled Sobol points in the first directions, Latin hypercubes (McKay and others 1979) in the rest, the normals made
 * orthogonal to each other, so that mean and covariance of what is linear in them are exact over all pairs.
 */
export function evenNormals(pairs: number, seed: number): EvenNormals {
  const variant = (seed >>> 0) % VARIANTS;
  const key = `${pairs}/${variant}`;
  const table = made.get(key) ?? makeTable(pairs, variant);
  made.set(key, table);
  const stream = randomStream(seed);
  return {
    normals: table.normals,
    sign: Int8Array.from({ length: WIDTH }, () => (stream.uniform() < 0.5 ? -1 : 1)),
    line: (at) => (table.lines[at % UNIFORMS] ??= bothOf(table.uniforms[at % UNIFORMS])),
  };
}

/** Of the first draw of each pair and of the second. */
function bothOf(first: Float64Array): Line {
  const uniforms = floatsOf({ length: 2 * first.length }, (_, i) =>
    i & 1 ? 1 - first[i >> 1] : first[i >> 1],
  );
  const normals = first.map(normalQuantile);
  return { uniforms, normals: floatsOf(uniforms, (_, i) => (i & 1 ? -normals[i >> 1] : normals[i >> 1])) };
}

function makeTable(pairs: number, variant: number): Table {
  const stream = randomStream(variant + 1);
  const scrambled = (dimension: number) => {
    const shift = Math.floor(stream.uniform() * 2 ** 32);
    return sobol(pairs, dimension).map((x) => (x ^ shift) >>> 0);
  };
  const order = ordered(scrambled(0));
  const line = (dimension: number): Float64Array => {
    const ranks =
      dimension < SOBOL_DIMENSIONS ? ranksOf(scrambled(dimension), order) : shuffled(pairs, stream);
    // A quarter from the edge: the other draw of the pair falls into the gap left.
    return Float64Array.from(ranks, (r) => (r + 0.25) / pairs);
  };
  const columns = Array.from({ length: WIDTH }, (_, j) =>
    line(j < EVEN_NORMALS ? 1 + j : SOBOL_DIMENSIONS).map(normalQuantile),
  );
  makeOrthogonal(columns, Math.min(WIDTH, pairs >> 1));
  const normals = new Float32Array(pairs * WIDTH);
  columns.forEach((column, j) => {
    for (let i = 0; i < pairs; i++) normals[i * WIDTH + j] = column[i];
  });
  const uniforms = Array.from({ length: UNIFORMS }, (_, u) =>
    line(u < EVEN_UNIFORMS ? 1 + EVEN_NORMALS + u : SOBOL_DIMENSIONS),
  );
  return { normals, uniforms, lines: [] };
}

/** Indices in ascending order of value. */
const ordered = (values: Uint32Array): number[] =>
  Array.from(values.keys()).sort((a, b) => values[a] - values[b]);

/** Rank of each value, the values taken in another's order. */
function ranksOf(values: Uint32Array, order: readonly number[]): Int32Array {
  const rank = new Int32Array(values.length);
  ordered(values).forEach((i, r) => {
    rank[i] = r;
  });
  return Int32Array.from(order, (i) => rank[i]);
}

function shuffled(n: number, stream: RandomStream): Int32Array {
  const out = Int32Array.from({ length: n }, (_, i) => i);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(stream.uniform() * (i + 1));
    [out[i], out[j]] = [out[j], out[i]];
  }
  return out;
}

/** Gram and Schmidt on the first columns; each column has a mean square of one. */
function makeOrthogonal(columns: Float64Array[], first: number): void {
  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: sums over columns and rows, in place
  columns.forEach((column, j) => {
    const n = column.length;
    if (j < first)
      for (let k = 0; k < j; k++) {
        let along = 0;
        for (let i = 0; i < n; i++) along += column[i] * columns[k][i];
        for (let i = 0; i < n; i++) column[i] -= (along / n) * columns[k][i];
      }
    let square = 0;
    for (let i = 0; i < n; i++) square += column[i] * column[i];
    const scale = Math.sqrt(n / square);
    for (let i = 0; i < n; i++) column[i] *= scale;
  });
}
