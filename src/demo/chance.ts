import { randomStream } from '../statistics/random-stream.js';
import { scattered } from '../statistics/text-hash.js';

/** Seeded choices in the words a scenario uses. */
export interface Chance {
  readonly normal: () => number;
  /** Uniform between two numbers. */
  readonly between: (low: number, high: number) => number;
  /** A whole number between two, both included. */
  readonly whole: (low: number, high: number) => number;
  /** True with this probability. */
  readonly happens: (probability: number) => boolean;
  readonly oneOf: <T>(items: readonly T[]) => T;
}

export function chance(seed: number): Chance {
  const stream = randomStream(scattered(seed));
  const between = (low: number, high: number) => low + (high - low) * stream.uniform();
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  return {
    normal: stream.normal,
    between,
    whole,
    happens: (probability) => stream.uniform() < probability,
    oneOf: (items) => items[whole(0, items.length - 1)],
  };
}
