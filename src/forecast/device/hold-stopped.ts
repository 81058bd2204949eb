import type { Futures } from '../futures.js';
import type { Halt } from './growth-stopped.js';

/** Futures in which a series whose growth is proved to have stopped stays as it was when that was read. */
export function holdStopped(futures: Futures, halts: ReadonlyMap<string, Halt>): Futures {
  const paths = new Map(futures.paths);
  for (const [key, { day, proved }] of halts) {
    const path = proved ? paths.get(key) : undefined;
    if (path) paths.set(key, held(path, futures, day));
  }
  return { ...futures, paths };
}

function held(path: Float64Array, { days, draws }: Futures, day: number): Float64Array {
  const width = days.length;
  const last = days.findLastIndex((d) => d <= day);
  if (last < 0 || last === width - 1) return path;
  const result = Float64Array.from(path);
  for (let i = 0; i < draws; i++) {
    const [a, b] = [path[i * width + last], path[i * width + last + 1]];
    const size = a + ((b - a) * (day - days[last])) / (days[last + 1] - days[last]);
    result.fill(size, i * width + last + 1, (i + 1) * width);
  }
  return result;
}
