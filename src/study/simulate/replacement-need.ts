import { dayNumber } from '../../records/dates.js';
import type { SimulatedChild, World } from './contract.js';

const WEEK = 7;
const WEEKS_A_YEAR = 52;

/**
 * Devices a child-year takes, year by year, when each is replaced on the very day it is outgrown: nobody can do with
 * fewer and never be late. The measure of what a clinic and its workshop must be able to do at least.
 */
export function replacementNeed(
  children: readonly SimulatedChild[],
  { start, years }: Pick<World, 'start' | 'years'>,
): number[] {
  const first = dayNumber(start);
  const replaced = new Array<number>(years).fill(0);
  for (const child of children) {
    let limitMm = child.trueSize(first) + child.allowanceMm;
    for (let w = 1; w < WEEKS_A_YEAR * years; w++) {
      const size = child.trueSize(first + w * WEEK);
      if (size <= limitMm) continue;
      replaced[Math.floor(w / WEEKS_A_YEAR)]++;
      limitMm = size + child.allowanceMm;
    }
  }
  return replaced.map((n) => n / children.length);
}
