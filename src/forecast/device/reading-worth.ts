import { floatsOf } from '../../statistics/floats-of.js';

/** Results of the reading that are tried: that of every so many-th draw. */
const TRIED = 12;

/** How wide the 80 % band of the outgrown day is, and how wide it would be on the average after one more reading. */
export interface BandWidths {
  readonly nowDays: number;
  readonly thenDays: number;
}

/** The outgrown day of every draw in ascending order, and which draw each is of. */
export interface OutgrownDays {
  readonly days: Float64Array;
  readonly draws: Int32Array;
}

/** `dayOf`: per draw the day it is outgrown, the horizon's end where it is not. */
export function inDayOrder(dayOf: ArrayLike<number>): OutgrownDays {
  const draws = Int32Array.from({ length: dayOf.length }, (_, i) => i).sort((a, b) => dayOf[a] - dayOf[b]);
  return { days: floatsOf(draws, (i) => dayOf[i]), draws };
}

/** Normal quantiles of 12 equal shares: the errors of the results tried. */
const ERRORS = [1.73, 1.15, 0.81, 0.55, 0.32, 0.1, -0.1, -0.32, -0.55, -0.81, -1.15, -1.73];

/**
 * What one more reading of a size would be worth. Each of some draws in turn is taken for the truth and read with an
 * error; the draws are weighed by how well they agree, and the band read anew (preposterior analysis: Raiffa &
 * Schlaifer 1961). `size`: what would be read, a draw.
 */
export function readingWorth(
  { days, draws }: OutgrownDays,
  size: ArrayLike<number>,
  errorSd: number,
): BandWidths {
  const n = days.length;
  const sizes = floatsOf(draws, (i) => size[i]);
  const sums = new Float64Array(n);
  /** Width between the days at which the weights' running sum reaches 10 and 90 %. */
  const width = (): number => {
    const total = sums[n - 1];
    let from = 0;
    while (from < n - 1 && sums[from] < 0.1 * total) from++;
    let to = from;
    while (to < n - 1 && sums[to] < 0.9 * total) to++;
    return days[to] - days[from];
  };
  for (let i = 0; i < n; i++) sums[i] = i + 1;
  const nowDays = width();
  const bySize = Float64Array.from(size).sort();
  let sum = 0;
  for (let k = 0; k < TRIED; k++) {
    // Sizes in order and errors out of order, so that neither follows the other.
    const truth = bySize[Math.floor(((k + 0.5) * n) / TRIED)];
    const result = truth + errorSd * ERRORS[(k * 7) % ERRORS.length];
    let running = 0;
    for (let i = 0; i < n; i++) {
      const off = (sizes[i] - result) / errorSd;
      // Farther off than this the weight is none.
      if (off > -9 && off < 9) running += Math.exp(-0.5 * off * off);
      sums[i] = running;
    }
    sum += width();
  }
  return { nowDays, thenDays: sum / TRIED };
}
