import { randomStream } from '../statistics/random-stream.js';
import { scattered } from '../statistics/text-hash.js';

export type Chance = ReturnType<typeof chance>;

/** Seeded choices in the words a scenario uses. */
export function chance(seed: number) {
  const stream = randomStream(scattered(seed));
  const between = (low: number, high: number) => low + (high - low) * stream.uniform();
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  return {
    normal: stream.normal,
    /** Uniform between two numbers. */
    between,
    /** A whole number between two, both included. */
    whole,
    /** True with this probability. */
    happens: (probability: number) => stream.uniform() < probability,
    oneOf: <T>(items: readonly T[]): T => items[whole(0, items.length - 1)],
  };
}
