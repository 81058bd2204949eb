/** Keeps the `most` answers asked for last, by key; one that is not kept is worked out. A promise that fails is not kept. */
export function lastUsed<T>(most: number): (key: string, work: () => T) => T {
  const kept = new Map<string, T>();
  return (key, work) => {
    const answer = kept.has(key) ? (kept.get(key) as T) : work();
    kept.delete(key);
    kept.set(key, answer);
    if (answer instanceof Promise) answer.catch(() => kept.delete(key));
    if (kept.size > most) kept.delete(kept.keys().next().value as string);
    return answer;
  };
}
