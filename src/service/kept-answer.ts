/** Working it out anew takes at most this share of the time while what it was made of goes on changing. */
const SHARE = 1 / 20;
/** Cheaper than this it is worked out whenever anything has changed, ms. */
const CHEAP_MS = 150;

/** While nobody waits for it, it takes at most this share of the time it lasts: its parts would hold up every page otherwise. */
const BEHIND_SHARE = 1 / 10;

/** So long after it was last known to hold, a dear answer is still given while the next is worked out behind it. */
const STALE_MS = 15 * 60_000;

/**
 * An answer worked out from the whole caseload: kept while nothing it was made of has changed; while people go on
 * writing, a dear one is worked out only now and then, and who asks meanwhile is given the one before. Asked by many at
 * once it is worked out once.
 * @param work awaits `afterOthers` between its parts; it returns at once while somebody waits for the answer
 */
export function keptAnswer<T>(
  version: () => Promise<string>,
  work: (afterOthers: () => Promise<void>) => Promise<T>,
): () => Promise<T> {
  let kept: { readonly version: string; readonly answer: T; readonly dear: boolean } | null = null;
  let until = 0;
  let held = 0;
  let running: Promise<T> | null = null;
  let awaited = false;
  const renew = async (now: string): Promise<T> => {
    const begun = performance.now();
    let rested = 0;
    const worked = () => performance.now() - begun - rested;
    const answer = await work(async () => {
      if (awaited) return;
      const rest = worked() * (1 / BEHIND_SHARE - 1) - rested;
      const from = performance.now();
      await new Promise<void>((resolve) => setTimeout(resolve, rest).unref());
      rested += performance.now() - from;
    });
    const cost = worked();
    kept = { version: now, answer, dear: cost >= CHEAP_MS };
    held = begun;
    until = kept.dear ? performance.now() + cost / SHARE : 0;
    return answer;
  };
  return async () => {
    if (kept && performance.now() < until) return kept.answer;
    const asked = performance.now();
    const now = await version();
    if (kept?.version === now) {
      held = asked;
      return kept.answer;
    }
    const isWaitedFor = !kept?.dear || performance.now() - held > STALE_MS;
    awaited ||= isWaitedFor;
    running ??= renew(now).finally(() => {
      running = null;
      awaited = false;
    });
    if (!kept || isWaitedFor) return running;
    // Fails it, the next to ask tries again.
    running.catch(() => {});
    return kept.answer;
  };
}
