/** Working it out anew takes at most this share of the time while what it was made of goes on changing. */
const SHARE = 1 / 20;
/** Cheaper than this it is worked out whenever anything has changed, ms. */
const CHEAP_MS = 150;

/**
 * An answer worked out from the whole caseload: kept while nothing it was made of has changed; while people go on
 * writing, a dear one is worked out only now and then. Asked by many at once it is worked out once.
 */
export function keptAnswer<T>(version: () => Promise<string>, work: () => Promise<T>): () => Promise<T> {
  let kept: { readonly version: string; readonly answer: T; readonly until: number } | null = null;
  let running: Promise<T> | null = null;
  const renew = async (now: string): Promise<T> => {
    const begun = performance.now();
    const answer = await work();
    const cost = performance.now() - begun;
    kept = { version: now, answer, until: cost < CHEAP_MS ? 0 : performance.now() + cost / SHARE };
    return answer;
  };
  return async () => {
    if (kept && performance.now() < kept.until) return kept.answer;
    const now = await version();
    if (kept?.version === now) return kept.answer;
    running ??= renew(now).finally(() => {
      running = null;
    });
    return running;
  };
}
