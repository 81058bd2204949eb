import { normalCdf } from './normal-cdf.js';

const FROM = -9;
const TO = 9;
const PER_UNIT = 64;
const SIZE = (TO - FROM) * PER_UNIT + 1;
const table = Float64Array.from({ length: SIZE + 1 }, (_, i) => normalCdf(-(FROM + i / PER_UNIT)));

/** Share of a standard normal above z, read from a table: within 1e-5, and within 0.3 % of itself up to z = 9. */
export function normalTail(z: number): number {
  const at = (z - FROM) * PER_UNIT;
  if (!(at > 0)) return 1;
  if (at >= SIZE - 1) return 0;
  const i = at | 0;
  const f = at - i;
  return table[i] + f * (table[i + 1] - table[i]);
}
