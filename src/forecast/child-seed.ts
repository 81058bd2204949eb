import { textHash } from '../statistics/text-hash.js';

/** A child's own seed from the run's seed and the child's id, so that order changes nothing. */
export const childSeed = (seed: number, childId: string): number => textHash(childId, seed);
