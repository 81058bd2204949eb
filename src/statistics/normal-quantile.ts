const central = {
  n: [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
    1971.5909503065513, 133.14166789178438, 3.3871328727963665,
  ],
  d: [
    5226.495278852546, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
    687.1870074920579, 42.31333070160091, 1,
  ],
};
const tail = {
  n: [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
    5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  d: [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
    1.6763848301838038, 2.053191626637759, 1,
  ],
};
const farTail = {
  n: [
    2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
    0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  d: [
    2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
    0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
  ],
};
/** Two polynomials of degree 7, written out: this is asked for at every draw of every limit. */
function ratio({ n, d }: { n: readonly number[]; d: readonly number[] }, x: number): number {
  const above = ((((((n[0] * x + n[1]) * x + n[2]) * x + n[3]) * x + n[4]) * x + n[5]) * x + n[6]) * x + n[7];
  const below = ((((((d[0] * x + d[1]) * x + d[2]) * x + d[3]) * x + d[4]) * x + d[5]) * x + d[6]) * x + d[7];
  return above / below;
}

/**
 * Standard normal quantile (probit): the z below which a share `p` of a standard normal lies.
 * Wichura (1988), algorithm AS 241 (PPND16), Applied Statistics 37:477; relative error about 1e-16, its
 * constants rounded to what a double can hold.
 * normalQuantile(0.975) = 1.959963984540054; 0 and 1 give -Infinity and Infinity.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity;
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(central, 0.180625 - q * q);
  const r = Math.sqrt(-Math.log(Math.min(p, 1 - p)));
  return Math.sign(q) * (r <= 5 ? ratio(tail, r - 1.6) : ratio(farTail, r - 5));
}
