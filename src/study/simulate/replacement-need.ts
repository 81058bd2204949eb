import { type DayNumber, dayNumber } from '../../records/dates.js';
import { ChildInCare } from './child-in-care.js';
import type { SimulatedChild, World } from './contract.js';

const WEEK = 7;
const WEEKS_A_YEAR = 52;
const exact = () => 0;

/**
 * Devices a child-year takes, year by year, when each is replaced on the very day no adjustment or part answers its limit
 * any more: nobody can do with fewer and never be late. The measure of what a clinic and its workshop must be able to do
 * at least.
 */
export function replacementNeed(
  children: readonly SimulatedChild[],
  { start, years }: Pick<World, 'start' | 'years'>,
): number[] {
  const first = dayNumber(start);
  const replaced = new Array<number>(years).fill(0);
  for (const simulated of children) {
    let device = new ChildInCare(simulated, exact, first);
    for (let w = 1; w < WEEKS_A_YEAR * years; w++) {
      const day: DayNumber = first + w * WEEK;
      if (device.lasts(day)) continue;
      replaced[Math.floor(w / WEEKS_A_YEAR)]++;
      device = new ChildInCare(simulated, exact, day);
    }
  }
  return replaced.map((n) => n / children.length);
}
