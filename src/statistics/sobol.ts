/** Primitive polynomials and initial direction numbers of dimensions 2 to 16: Joe & Kuo (2008), from memory. */
const DIRECTIONS: readonly (readonly [polynomial: number, ...initial: number[]])[] = [
  [0, 1],
  [1, 1, 3],
  [1, 1, 3, 1],
  [2, 1, 1, 1],
  [1, 1, 1, 3, 3],
  [4, 1, 3, 5, 13],
  [2, 1, 1, 5, 5, 17],
  [4, 1, 1, 5, 5, 5],
  [7, 1, 1, 7, 11, 19],
  [11, 1, 1, 5, 1, 1],
  [13, 1, 1, 1, 3, 11],
  [14, 1, 3, 5, 5, 31],
  [1, 1, 3, 3, 9, 7, 49],
  [13, 1, 1, 1, 15, 21, 21],
  [16, 1, 3, 1, 13, 27, 49],
];
export const SOBOL_DIMENSIONS = DIRECTIONS.length + 1;
const BITS = 32;

/** Direction numbers of a dimension (0 is the first), as whole 32-bit words. */
function directions(dimension: number): Uint32Array {
  if (dimension === 0) return Uint32Array.from({ length: BITS }, (_, i) => (1 << (BITS - 1 - i)) >>> 0);
  const [polynomial, ...initial] = DIRECTIONS[dimension - 1];
  const degree = initial.length;
  const v = new Uint32Array(BITS);
  for (let i = 0; i < BITS; i++) {
    if (i < degree) {
      v[i] = initial[i] << (BITS - 1 - i);
      continue;
    }
    let next = v[i - degree] ^ (v[i - degree] >>> degree);
    for (let k = 1; k < degree; k++) if ((polynomial >>> (degree - 1 - k)) & 1) next ^= v[i - k];
    v[i] = next;
  }
  return v;
}

/** The first points of Sobol's sequence (1967) in one dimension, as 32-bit fractions: they fill space evenly with the others. */
export function sobol(points: number, dimension: number): Uint32Array {
  const v = directions(dimension);
  return Uint32Array.from({ length: points }, (_, i) => {
    let x = 0;
    for (let bit = 0, left = i; left > 0; bit++, left >>>= 1) if (left & 1) x ^= v[bit];
    return x >>> 0;
  });
}
