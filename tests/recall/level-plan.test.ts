import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compactProblem } from '../../src/recall/level/compact-problem.js';
import {
  type Capacity,
  levellingSettings,
  type Plan,
  type PlanRequest,
} from '../../src/recall/level/contract.js';
import { levelPlan } from '../../src/recall/level/level-plan.js';
import { dayNumber } from '../../src/records/dates.js';
import { randomPlan } from './random-plan.js';

const exact = { mipGap: 0 };

/** Cost of weeks chosen for every request, going over limits at the settings' price: straight from the definition. */
function costOf(requests: readonly PlanRequest[], capacity: Capacity, weeks: readonly number[]): number {
  const s = levellingSettings.parse(exact);
  const p = compactProblem(requests, capacity, s);
  let cost = 0;
  weeks.forEach((w, i) => {
    cost += p.costs[i][w];
  });
  for (let w = 0; w < p.weeks; w++) {
    const slots = p.sessionSlots.filter((_, k) => p.sessionWeek[k] === w).reduce((a, b) => a + b, 0);
    const used = weeks.reduce((sum, x, i) => sum + (x === w ? p.slots[i] : 0), 0);
    cost += s.overtimeSlotCost * Math.max(0, used - slots);
    p.jobLimits.forEach((limits, g) => {
      const jobs = weeks.reduce(
        (sum, x, i) => sum + (x === w ? (p.jobs[i].find((j) => j.limit === g)?.count ?? 0) : 0),
        0,
      );
      cost += s.overtimeJobCost * Math.max(0, jobs - limits[w]);
    });
  }
  return cost;
}

/** Least cost over every assignment. */
function exhaustive(requests: readonly PlanRequest[], capacity: Capacity): number {
  const choices = capacity.weeks.length + 1;
  let best = Number.POSITIVE_INFINITY;
  const weeks = new Array<number>(requests.length).fill(0);
  for (let code = 0; code < choices ** requests.length; code++) {
    let rest = code;
    for (let i = 0; i < weeks.length; i++) {
      weeks[i] = rest % choices;
      rest = Math.floor(rest / choices);
    }
    best = Math.min(best, costOf(requests, capacity, weeks));
  }
  return best;
}

/**
 * A second formulation: minimum-cost flow, one unit from each request through a week to the sink, by successive
 * shortest paths (Bellman-Ford; Ahuja, Magnanti & Orlin 1993, Network Flows, ch. 9 - from memory). One slot a request,
 * any clinician, no workshop limit.
 */
function minimumCostFlow(requests: readonly PlanRequest[], capacity: Capacity): number {
  const s = levellingSettings.parse(exact);
  const p = compactProblem(requests, capacity, s);
  const n = p.requests.length;
  const weekNode = (w: number) => 1 + n + w;
  const sink = 1 + n + p.weeks + 1;
  const edges: { from: number; to: number; left: number; cost: number; twin: number }[] = [];
  const add = (from: number, to: number, left: number, cost: number) => {
    edges.push({ from, to, left, cost, twin: edges.length + 1 });
    edges.push({ from: to, to: from, left: 0, cost: -cost, twin: edges.length - 1 });
  };
  for (let i = 0; i < n; i++) {
    add(0, 1 + i, 1, 0);
    p.costs[i].forEach((c, w) => {
      if (Number.isFinite(c)) add(1 + i, weekNode(w), 1, c);
    });
  }
  for (let w = 0; w < p.weeks; w++) {
    const slots = p.sessionSlots.filter((_, k) => p.sessionWeek[k] === w).reduce((a, b) => a + b, 0);
    add(weekNode(w), sink, slots, 0);
    add(weekNode(w), sink, n, s.overtimeSlotCost);
  }
  add(weekNode(p.weeks), sink, n, 0);
  let total = 0;
  for (let unit = 0; unit < n; unit++) {
    const distance = new Array<number>(sink + 1).fill(Number.POSITIVE_INFINITY);
    const by = new Array<number>(sink + 1).fill(-1);
    distance[0] = 0;
    for (let changed = true; changed; ) {
      changed = false;
      edges.forEach((e, k) => {
        if (e.left > 0 && distance[e.from] + e.cost < distance[e.to] - 1e-9) {
          distance[e.to] = distance[e.from] + e.cost;
          by[e.to] = k;
          changed = true;
        }
      });
    }
    total += distance[sink];
    for (let node = sink; node !== 0; node = edges[by[node]].from) {
      edges[by[node]].left--;
      edges[edges[by[node]].twin].left++;
    }
  }
  return total;
}

describe('levelPlan', () => {
  it('is as good as the best of every possible assignment, with slots, clinicians’ totals and workshop limits', async () => {
    for (let seed = 1; seed <= 6; seed++) {
      const { requests, capacity } = randomPlan(seed, {
        requests: 6,
        weeks: 3,
        limits: 1 + (seed % 2),
        slotShare: 0.7,
        jobShare: 0.8,
      });
      const plan = await levelPlan(requests, capacity, exact);
      expect(plan.cost, `seed ${seed}`).toBeCloseTo(exhaustive(requests, capacity), 6);
      expect(plan.gap).toBeLessThan(1e-6);
    }
  });

  it('agrees with a minimum-cost flow found by successive shortest paths', async () => {
    for (let seed = 1; seed <= 5; seed++) {
      const { requests, capacity } = randomPlan(100 + seed, { requests: 60, weeks: 10, slotShare: 0.85 });
      const plan = await levelPlan(requests, capacity, exact);
      expect(plan.cost, `seed ${seed}`).toBeCloseTo(minimumCostFlow(requests, capacity), 5);
    }
  });

  it('by column generation is within the stated gap of the minimum-cost flow', async () => {
    const { requests, capacity } = randomPlan(9, { requests: 700, weeks: 20, slotShare: 0.95 });
    const plan = await levelPlan(requests, capacity);
    const best = minimumCostFlow(requests, capacity);
    expect(plan.columns).toBeLessThan(700 * 21);
    expect(plan.lowerBound).toBeLessThanOrEqual(best + 1e-6);
    expect(plan.cost).toBeGreaterThanOrEqual(best - 1e-6);
    expect(plan.cost - best).toBeLessThanOrEqual(1e-3 * best + 1e-6);
  }, 120_000);

  it('keeps every limit it does not report as overtime, and its parts add up', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1e6 }), async (seed) => {
        const { requests, capacity } = randomPlan(seed, {
          requests: 40,
          weeks: 6,
          clinicians: 3,
          limits: 2,
          bound: 0.5,
        });
        const plan = await levelPlan(requests, capacity);
        expect(plan.visits).toHaveLength(requests.length);
        for (const load of plan.weeks) {
          expect(load.used - load.overtime).toBeLessThanOrEqual(load.slots);
          for (const limit of load.workshop) expect(limit.used - limit.over).toBeLessThanOrEqual(limit.limit);
        }
        const settings = levellingSettings.parse({});
        const over = plan.weeks.reduce(
          (sum, w) =>
            sum +
            settings.overtimeSlotCost * w.overtime +
            settings.overtimeJobCost * w.workshop.reduce((s, g) => s + g.over, 0),
          0,
        );
        expect(plan.visits.reduce((sum, v) => sum + v.cost, over)).toBeCloseTo(plan.cost, 4);
        for (const v of plan.visits) {
          const r = requests.find((x) => x.id === v.requestId)!;
          if (r.clinicianIds.length > 0 && v.clinicianId !== null)
            expect(r.clinicianIds).toContain(v.clinicianId);
          if (r.transportDays.length > 0 && v.weekday !== null) expect(r.transportDays).toContain(v.weekday);
          expect(v.why.length).toBeGreaterThan(10);
        }
        expect(plan.lowerBound).toBeLessThanOrEqual(plan.cost + 1e-6);
      }),
      { numRuns: 12, seed: 4 },
    );
  });

  it('does not depend on the order of the requests, and another slot never makes it worse', async () => {
    const { requests, capacity } = randomPlan(5, { requests: 50, weeks: 8, slotShare: 0.8 });
    const plan = await levelPlan(requests, capacity, exact);
    expect(await levelPlan([...requests].reverse(), capacity, exact)).toEqual(plan);
    // A shadow price is the saving of one more unit for an optimum that stays non-degenerate, and never less than it.
    const top = plan.relief.find((r) => r.kind === 'slot')!;
    const at = capacity.sessions.findIndex(
      (s) => capacity.weeks[s.week] === top.week && s.clinicianId === top.clinicianId,
    );
    const more = {
      ...capacity,
      sessions: capacity.sessions.map((s, k) => (k === at ? { ...s, slots: s.slots + 1 } : s)),
    };
    const relieved = await levelPlan(requests, more, exact);
    expect(relieved.cost).toBeLessThanOrEqual(plan.cost);
    expect(plan.cost - relieved.cost).toBeLessThanOrEqual(top.value + 1e-6);
    expect(plan.cost - relieved.cost).toBeGreaterThan(0);
  });

  it('never plans more visits than places, and fewer places never make fewer visits late or the harm less', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 1e6 }),
        fc.array(fc.nat(9), { minLength: 1 }),
        async (seed, cut) => {
          const { requests, capacity } = randomPlan(seed, { requests: 50, weeks: 10, slotShare: 1.2 });
          const shared = requests.map((r) => ({
            ...r,
            // Past due and to come, all losing by waiting at the same pace: only places decide who is late.
            worthIt: null,
            prefersHolidays: false,
            insensateSkin: false,
            jobs: [],
            outgrownDays: r.outgrownDays.map((_, w) =>
              Math.max(0, 7 * w + 4 - dayNumber(r.latestSafe) + dayNumber(capacity.weeks[0])),
            ),
            wastedDays: r.wastedDays.map(() => 0),
          }));
          const fewer = {
            ...capacity,
            sessions: capacity.sessions.map((s) => ({
              ...s,
              slots: cut.includes(s.week) ? Math.floor(s.slots / 2) : s.slots,
            })),
          };
          const [full, less] = [
            await levelPlan(shared, capacity, exact),
            await levelPlan(shared, fewer, exact),
          ];
          for (const plan of [full, less]) expect(plan.weeks.every((w) => w.used <= w.slots)).toBe(true);
          const late = (plan: Plan) => plan.visits.filter((v) => !v.insideWindow).length;
          expect(late(less)).toBeGreaterThanOrEqual(late(full));
          expect(less.cost).toBeGreaterThanOrEqual(full.cost - 1e-6);
        },
      ),
      { numRuns: 25, seed: 9 },
    );
  });

  /** So many visits due in the first week of four that have one slot each. */
  const queue = (count: number, isNumb: (i: number) => boolean) => {
    const { requests, capacity } = randomPlan(1, { requests: count, weeks: 4 });
    const alike = requests.map((r, i) => ({
      ...r,
      latestSafe: '2026-06-05',
      worthIt: null,
      insensateSkin: isNumb(i),
      prefersHolidays: false,
      jobs: [],
      outgrownDays: [0, 3, 9, 18, 30],
      wastedDays: [0, 0, 0, 0, 0],
    }));
    const one = {
      ...capacity,
      workshop: [],
      sessions: capacity.weeks.map((_, week) => ({ week, weekday: null, clinicianId: 'a', slots: 1 })),
    };
    return { alike, one, capacity };
  };

  it('names insensate skin first among those who come too late, however many days the others lose', async () => {
    const { alike, one } = queue(3, (i) => i > 0);
    const { harmed } = await levelPlan(alike, one, exact);
    expect(harmed.map((h) => [h.insensateSkin, h.extraOutgrownDays])).toEqual([
      [true, 3],
      [false, 9],
    ]);
  });

  it.each([0, 1])('spares insensate skin before others when there is one slot: the %d', async (numb) => {
    const { alike: pair, one, capacity } = queue(2, (i) => i === numb);
    const plan = await levelPlan(pair, one, exact);
    expect(plan.visits.map((v) => v.week)).toEqual([0, 1].map((i) => capacity.weeks[i === numb ? 0 : 1]));
    expect(plan.harmed.map((h) => h.requestId)).toEqual([pair[1 - numb].id]);
    expect(plan.harmed[0].text).toContain('past the latest safe day 5 June 2026');
    expect(plan.relief[0].text).toMatch(/One more casting slot in the week of 1 June 2026 would spare/);
  });
});

describe('a plan made after another', () => {
  const changed = async (
    by: (r: PlanRequest, was: string | null) => Partial<PlanRequest>,
    closed?: number,
  ) => {
    const { requests, capacity } = randomPlan(11, { requests: 80, weeks: 10, slotShare: 1.1 });
    const before = await levelPlan(requests, capacity);
    const weekOf = new Map(before.visits.map((v) => [v.requestId, v.week]));
    const next = requests.map((r) => {
      const previousWeek = weekOf.get(r.id) ?? null;
      return { ...r, previousWeek, previousWeekTold: true, ...by(r, previousWeek) };
    });
    const sessions = capacity.sessions.map((s) => (s.week === closed ? { ...s, slots: 0 } : s));
    const plan = await levelPlan(next, { ...capacity, sessions });
    const moved = plan.visits.filter((v) => v.week !== weekOf.get(v.requestId));
    const free = await levelPlan(
      next.map((r) => ({ ...r, previousWeek: null })),
      { ...capacity, sessions },
    );
    const movedFreely = free.visits.filter((v) => v.week !== weekOf.get(v.requestId));
    return { before, capacity, plan, moved, movedFreely };
  };

  it('is the same plan when nothing changed', async () => {
    expect((await changed(() => ({}))).moved).toEqual([]);
  });

  it('moves the family that declined its week and nearly nobody else', async () => {
    const { requests, capacity } = randomPlan(11, { requests: 80, weeks: 10, slotShare: 1.1 });
    const week = capacity.weeks[4];
    const gone = (await levelPlan(requests, capacity)).visits.find((v) => v.week === week)!.requestId;
    const { plan, moved } = await changed((r) =>
      r.id === gone ? { previousWeek: null, notInWeeks: [week] } : {},
    );
    expect(moved.map((v) => v.requestId)).toContain(gone);
    expect(moved.length).toBeLessThanOrEqual(3);
    expect(plan.visits.find((v) => v.requestId === gone)!.week).not.toBe(week);
  });

  it('moves fewer than a plan free to forget the one before when the clinic loses a week', async () => {
    const { before, capacity, moved, movedFreely } = await changed(() => ({}), 4);
    const lost = before.visits.filter((v) => v.week === capacity.weeks[4]).length;
    expect(moved.length).toBeGreaterThanOrEqual(lost - 1);
    expect(moved.length).toBeLessThan(movedFreely.length);
  });
});
