import { askThread } from '../../launch/ask-thread.js';
import { type Programme, type Solution, type SolveOptions, solveBy, solveHere } from './highs-solver.js';

/**
 * From now on weeks are planned in a thread beside whoever asks, who goes on answering meanwhile: those of a large
 * clinic take seconds. Gives back how to end it; what the thread could not solve is solved, or refused, on the spot.
 */
export function solveAside(): () => Promise<void> {
  const thread = askThread<[Programme, SolveOptions], Solution>(
    new URL('./solver-thread.mjs', import.meta.url),
  );
  let ended = false;
  solveBy((programme, options) =>
    thread.ask([programme, options]).catch((error) => {
      if (ended) throw error;
      return solveHere(programme, options);
    }),
  );
  return async () => {
    ended = true;
    solveBy(solveHere);
    await thread.end();
  };
}
