import type { ZxcvbnFactory } from '@zxcvbn-ts/core';

/** The estimate's scale: below 2 a password is found with under a million guesses (its own documentation, from memory). */
const LEAST_SCORE = 2;
/** What is read of a long one: the estimate costs more than in proportion to length. */
const READ = 60;

/** The lists weigh some megabytes and are wanted only where a password is set. */
let estimator: Promise<ZxcvbnFactory> | null = null;
const load = async (): Promise<ZxcvbnFactory> => {
  const [core, common] = await Promise.all([import('@zxcvbn-ts/core'), import('@zxcvbn-ts/language-common')]);
  return new core.ZxcvbnFactory({ dictionary: { ...common.dictionary }, graphs: common.adjacencyGraphs });
};

/** Whether a password is on a list of common ones, a row of keys, a repetition, or the person's own name in disguise. */
export async function isGuessable(password: string, own: readonly string[]): Promise<boolean> {
  estimator ??= load();
  return (await estimator).check(password.slice(0, READ), [...own]).score < LEAST_SCORE;
}
