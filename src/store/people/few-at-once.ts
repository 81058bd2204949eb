/** Runs at most `most` pieces of work at once, the others in the order in which they came. */
export function fewAtOnce(most: number): <T>(work: () => Promise<T>) => Promise<T> {
  const waiting: (() => void)[] = [];
  let free = most;
  return async (work) => {
    if (free > 0) free--;
    else await new Promise<void>((turn) => waiting.push(turn));
    try {
      return await work();
    } finally {
      // Who waits is handed the place: nobody who comes now slips in before.
      const next = waiting.shift();
      if (next) next();
      else free++;
    }
  };
}
