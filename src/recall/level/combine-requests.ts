import type { Capacity, LevellingSettings, PlanRequest } from './contract.js';
import { insideWindow, partsOf, weekCosts } from './week-costs.js';

/** Weeks over which the hurry of a visit is measured. */
const HURRY_WEEKS = 4;
/** So much of the more pressing visit's hurry, place for place, a visit shared with a brother or sister must keep. */
const HURRY_KEPT = 0.75;

/**
 * Makes one visit of several where that is cheaper than the visit it saves: both sides, several devices, a review that
 * falls due, brothers and sisters. The best pair of each child or family goes first, until no pair pays.
 */
export function combineRequests(
  requests: readonly PlanRequest[],
  capacity: Capacity,
  settings: LevellingSettings,
): { requests: PlanRequest[]; visitsSaved: number } {
  const current = new Set(requests);
  const byKey = new Map<string, Set<PlanRequest>>();
  const add = (r: PlanRequest) => {
    current.add(r);
    for (const key of r.togetherKeys) byKey.set(key, (byKey.get(key) ?? new Set()).add(r));
  };
  const remove = (r: PlanRequest) => {
    current.delete(r);
    for (const key of r.togetherKeys) byKey.get(key)?.delete(r);
  };
  for (const r of requests) add(r);
  // A child's own visits first, then a family's: the order the keys are given in.
  for (const group of byKey.values()) {
    if (group.size < 2) continue;
    const before = [...group];
    const after = combineGroup(before, capacity, settings);
    for (const r of before) remove(r);
    for (const r of after) add(r);
  }
  const combined = [...current];
  return { requests: combined, visitsSaved: requests.length - combined.length };
}

function combineGroup(group: PlanRequest[], capacity: Capacity, settings: LevellingSettings): PlanRequest[] {
  const members = [...group];
  for (;;) {
    const best = bestPair(members, capacity, settings);
    if (!best) return members;
    members.splice(best.j, 1);
    members.splice(best.i, 1, best.merged);
  }
}

/** The two whose shared visit saves most; null where none pays. */
function bestPair(members: readonly PlanRequest[], capacity: Capacity, settings: LevellingSettings) {
  let best: { i: number; j: number; saving: number; merged: PlanRequest } | null = null;
  for (let i = 0; i < members.length; i++) {
    for (let j = i + 1; j < members.length; j++) {
      const merged = merge(members[i], members[j]);
      if (!merged || waitsForSibling(merged, members[i], members[j], capacity, settings)) continue;
      if (isPutOff(merged, [members[i], members[j]], capacity, settings)) continue;
      const saving =
        settings.visitCost +
        cheapest(members[i], capacity, settings) +
        cheapest(members[j], capacity, settings) -
        cheapest(merged, capacity, settings);
      if (saving > (best?.saving ?? 0)) best = { i, j, saving, merged };
    }
  }
  return best;
}

/** Could one of them be in time alone, and not in any week that both can have? */
function isPutOff(
  merged: PlanRequest,
  alone: readonly PlanRequest[],
  capacity: Capacity,
  settings: LevellingSettings,
): boolean {
  const inTime = (r: PlanRequest, visit: PlanRequest) => {
    const costs = weekCosts(visit, capacity, settings);
    return capacity.weeks.some((week, w) => Number.isFinite(costs[w]) && insideWindow(r, capacity, week));
  };
  return alone.some((r) => inTime(r, r) && !inTime(r, merged));
}

/**
 * Would somebody who is late already wait for a brother or sister? A shared visit needs a place for each of them in one
 * week, so where places are short the later of the two must not be held up by one that has time.
 */
function waitsForSibling(
  merged: PlanRequest,
  a: PlanRequest,
  b: PlanRequest,
  capacity: Capacity,
  settings: LevellingSettings,
): boolean {
  if (merged.childIds.length === Math.max(a.childIds.length, b.childIds.length)) return false;
  if (!capacity.weeks.some((_, w) => placesIn(capacity, w) >= merged.slots)) return true;
  const [together, one, other] = [merged, a, b].map((r) => hurry(r, capacity, settings));
  return (one.late || other.late) && together.perPlace < HURRY_KEPT * Math.max(one.perPlace, other.perPlace);
}

const placesIn = (capacity: Capacity, week: number): number =>
  capacity.sessions.reduce((sum, s) => sum + (s.week === week ? s.slots : 0), 0);

/** Is a visit late in the first week it can have, and what do a month's weeks after that cost it, place for place? */
function hurry(r: PlanRequest, capacity: Capacity, settings: LevellingSettings) {
  const costs = weekCosts(r, capacity, settings);
  const first = costs.findIndex(Number.isFinite);
  const then = Math.min(first + HURRY_WEEKS, costs.length - 1);
  return {
    late: !insideWindow(r, capacity, capacity.weeks[first] ?? null),
    perPlace: (costs[then] - costs[first]) / r.slots,
  };
}

const cheapest = (r: PlanRequest, capacity: Capacity, settings: LevellingSettings) =>
  weekCosts(r, capacity, settings).reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

/** Null where no clinician or no day suits both. Booked for different weeks no week is possible for both. */
function merge(a: PlanRequest, b: PlanRequest): PlanRequest | null {
  const clinicianIds = common(a.clinicianIds, b.clinicianIds);
  const transportDays = common(a.transportDays, b.transportDays);
  if (clinicianIds === null || transportDays === null) return null;
  const parts = [...partsOf(a), ...partsOf(b)];
  const worth = parts.flatMap((p) => p.worthIt ?? []).sort();
  const childIds = [...new Set(parts.flatMap((p) => p.childIds))];
  return {
    ...a,
    id: parts
      .map((p) => p.id)
      .sort()
      .join(' + '),
    childIds,
    deviceIds: [...new Set(parts.flatMap((p) => p.deviceIds))],
    action: parts.some((p) => p.action === 'cast') ? 'cast' : 'review',
    // One child's visit takes the longest slot it needs; each further child one of its own.
    slots: childIds.reduce(
      (sum, c) => sum + Math.max(...parts.filter((p) => p.childIds.includes(c)).map((p) => p.slots)),
      0,
    ),
    jobs: parts.flatMap((p) => p.jobs),
    worthIt: worth[0] ?? null,
    latestSafe: parts.map((p) => p.latestSafe).sort()[0],
    insensateSkin: parts.some((p) => p.insensateSkin),
    outgrownDays: sum(parts.map((p) => p.outgrownDays)),
    wastedDays: sum(parts.map((p) => p.wastedDays)),
    clinicianIds,
    transportDays,
    prefersHolidays: parts.some((p) => p.prefersHolidays),
    togetherKeys: [...new Set(parts.flatMap((p) => p.togetherKeys))],
    bookedWeek: a.bookedWeek ?? b.bookedWeek,
    parts,
  };
}

/** Empty means any. */
function common<T>(a: readonly T[], b: readonly T[]): readonly T[] | null {
  if (a.length === 0) return b;
  if (b.length === 0) return a;
  const both = a.filter((x) => b.includes(x));
  return both.length > 0 ? both : null;
}

const sum = (rows: readonly (readonly number[])[]) =>
  rows[0].map((_, w) => rows.reduce((s, r) => s + r[w], 0));
