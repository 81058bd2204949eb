/** A function of a collection and a day whose answers are kept as long as that very collection is. */
export function onceFor<K extends object, T>(work: (of: K, day: string) => T): (of: K, day: string) => T {
  const known = new WeakMap<K, { readonly day: string; readonly answer: T }>();
  return (of, day) => {
    const before = known.get(of);
    if (before?.day === day) return before.answer;
    const answer = work(of, day);
    known.set(of, { day, answer });
    return answer;
  };
}
