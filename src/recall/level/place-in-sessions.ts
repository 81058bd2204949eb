import type { CompactProblem } from './compact-problem.js';

export interface Place {
  /** Session of the request's first slot, or null when it goes over the limit or needs none. */
  readonly session: number | null;
  /** Slots over the limit. */
  readonly overtime: number;
}

/**
 * Gives each request of a week its session. Requests with the fewest sessions to choose from go first, and a full
 * session passes one of its own on to another where it can (augmenting paths, Kuhn 1955), so that nobody is over the
 * limit who need not be. A visit of several slots may be spread over sessions; its first slot is named.
 */
export function placeInSessions(p: CompactProblem, week: readonly number[]): Place[] {
  const places: Place[] = week.map(() => ({ session: null, overtime: 0 }));
  for (let w = 0; w < p.weeks; w++) {
    const here = week.flatMap((x, i) => (x === w && p.slots[i] > 0 ? [i] : []));
    placeWeek(p, w, here, places);
  }
  return places;
}

function placeWeek(p: CompactProblem, w: number, here: number[], places: Place[]): void {
  const options = (i: number) => p.sessionsOfType[p.type[i]].filter((s) => p.sessionWeek[s] === w);
  const holders = new Map<number, { i: number; unit: number }[]>();
  const holdersOf = (s: number) => holders.get(s) ?? holders.set(s, []).get(s)!;
  const first = new Map<string, number>();
  const settle = (i: number, unit: number, tried: Set<number>): boolean => {
    for (const s of options(i)) {
      if (tried.has(s)) continue;
      tried.add(s);
      const held = holdersOf(s);
      const put = (at: number) => {
        held[at] = { i, unit };
        first.set(`${i}/${unit}`, s);
        return true;
      };
      if (held.length < p.sessionSlots[s]) return put(held.length);
      for (let at = 0; at < held.length; at++) {
        if (settle(held[at].i, held[at].unit, tried)) return put(at);
      }
    }
    return false;
  };
  here.sort((a, b) => options(a).length - options(b).length || a - b);
  for (const i of here) {
    let overtime = 0;
    for (let unit = 0; unit < p.slots[i]; unit++) overtime += settle(i, unit, new Set()) ? 0 : 1;
    places[i] = { session: null, overtime };
  }
  for (const i of here) places[i] = { ...places[i], session: first.get(`${i}/0`) ?? null };
}
