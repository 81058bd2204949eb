import { writeFileSync } from 'node:fs';
import type { GrowthModel } from '../growth/population/growth-model.js';
import { loadGrowthModel } from '../growth/population/model.js';
import { loadRules } from '../rules/load-rules.js';
import { randomStream } from '../statistics/random-stream.js';
import { hash } from '../study/backtest/clinic-noise.js';
import { atEqualVisits, bestInWords, bestPolicy } from '../study/simulate/compare-policies.js';
import type { PolicyOutcome, RecallPolicy, SimulationError, World } from '../study/simulate/contract.js';
import { replacementNeed } from '../study/simulate/replacement-need.js';
import { simulateCaseload } from '../study/simulate/simulate-caseload.js';
import { simulationAssessor } from '../study/simulate/simulation-assessor.js';
import { type Interval, type PolicySummary, summarisePolicy } from '../study/simulate/summarise-policies.js';
import { simulatedWorld } from './simulated-worlds.js';
import { terminal, textTable } from './terminal.js';

export interface SimulateOptions {
  readonly children?: number;
  readonly years?: number;
  readonly out?: string;
  readonly seed?: number;
  readonly worlds?: number;
  readonly json?: boolean;
}

const START = '2025-01-06';
const CHILDREN = 40;
const YEARS = 3;
/** Casts above the least need that a policy which is never late makes, and visits beside those for casts and the first look after each, a child-year. */
const CASTS_OVER_NEED = 1.6;
const VISITS_A_CAST = 2;
const OTHER_VISITS = 2.25;
const MISSED_SHARE = 0.12;
/** Futures a forecast is made of: a quarter of what a clinic's forecasts have. */
const DRAWS = 128;

const policies: readonly RecallPolicy[] = [
  ...[3, 4, 6, 12].flatMap((months) =>
    [0, 0.25, 0.5, 0.75].map((castAheadShare): RecallPolicy => ({ kind: 'fixed', months, castAheadShare })),
  ),
  { kind: 'forecast', levelled: false },
  ...[0.1, 0.2, 1 / 3, 0.5].map(
    (acceptedChance): RecallPolicy => ({ kind: 'forecast', levelled: true, acceptedChance }),
  ),
];

/** `doorpost simulate`: a caseload lived through under each recall policy, and what each costs children and clinic. */
export async function simulate(opts: SimulateOptions): Promise<void> {
  const begun = performance.now();
  const seed = opts.seed ?? 1;
  const years = opts.years ?? YEARS;
  const model = loadGrowthModel();
  const worlds = Array.from({ length: opts.worlds ?? 1 }, (_, w) =>
    worldOf(opts.children ?? CHILDREN, years, seed + w),
  );
  const outcomes: PolicyOutcome[][] = [];
  for (const world of worlds) outcomes.push(await livedThrough(world, model));
  const summaries = policies.map((policy, p) => {
    const ofWorlds = outcomes.map((o) => o[p]);
    const children = ofWorlds.flatMap((o) => o.children);
    return summarisePolicy(
      { policy, children, overtimeWeeks: ofWorlds.flatMap((o) => o.overtimeWeeks) },
      seed,
    );
  });
  const report = {
    command: 'simulate',
    children: worlds.reduce((sum, { children }) => sum + children.length, 0),
    years,
    seed,
    worlds: worlds.map(({ world, need }) => ({ ...world, replacementNeed: need })),
    model: { name: model.name, version: model.version },
    seconds: Math.round((performance.now() - begun) / 100) / 10,
    best: bestPolicy(summaries).policy,
    bestInWords: bestInWords(summaries),
    atEqualVisits: atEqualVisits(summaries),
    policies: summaries,
    limits: [
      'One device a child, with every dimension its rule limits; a look reads the room there with the tolerance of the rule as its error; readings have technical error only.',
      'A day past a limit that an adjustment or a part would have answered counts half. Nobody checks that a joint is not set too high or a strap let out too far.',
      'Intervals resample children (overtime: quarters of a year) and hold 95 %; two policies are compared child by child; each world is one draw.',
      'Of the fixed reviews four hand rules are shown: cast at every visit, or when the room seen shows 25, 50 or 75 % of the allowance used; what is tight is eased, parts are renewed by the same share.',
    ],
  };
  if (opts.out) writeFileSync(opts.out, `${JSON.stringify(report, null, 2)}\n`);
  terminal.out(opts.json ? JSON.stringify(report, null, 2) : text(report, summaries));
}

/** An invented clinic of so many children, with the places and the workshop it needs. */
function worldOf(count: number, years: number, seed: number) {
  const children = simulatedWorld(count, START, seed);
  // The busiest year decides: a workshop too small for it is late for years after.
  const need = Math.max(...replacementNeed(children, { start: START, years }));
  const weekly = (perChildYear: number) => Math.max(1, Math.ceil((children.length * perChildYear) / 52));
  const world: World = {
    start: START,
    years,
    // An appointment to which nobody comes takes its slot too.
    slotsPerWeek: weekly((need * CASTS_OVER_NEED * VISITS_A_CAST + OTHER_VISITS) / (1 - MISSED_SHARE)),
    jobsPerWeek: weekly(need * CASTS_OVER_NEED),
    missedShare: MISSED_SHARE,
    seed,
  };
  return { children, need, world };
}

/** Every policy in the same world, one after another; none learns from another. */
async function livedThrough(
  { children, world }: ReturnType<typeof worldOf>,
  model: GrowthModel,
): Promise<PolicyOutcome[]> {
  const { seed } = world;
  const assess = simulationAssessor(model, loadRules(), seed, DRAWS);
  const error: SimulationError = (childId, what, day) =>
    randomStream(hash(`${seed}|${childId}|${what}|${day}`)).normal();
  const outcomes: PolicyOutcome[] = [];
  for (const policy of policies) {
    outcomes.push(await simulateCaseload(children, policy, world, assess, error));
    terminal.progress(`${outcomes.length} of ${policies.length} policies lived through`);
  }
  return outcomes;
}

function text(
  report: {
    children: number;
    years: number;
    seconds: number;
    worlds: readonly (World & { replacementNeed: number })[];
  },
  summaries: readonly PolicySummary[],
): string {
  const cell = (x: Interval, digits: number) =>
    `${x.mean.toFixed(digits)} (${x.low.toFixed(digits)} to ${x.high.toFixed(digits)})`;
  return [
    `${report.children} children over ${report.years} years.`,
    ...report.worlds.map(
      (w) =>
        `Seed ${w.seed}: ${w.slotsPerWeek} visits and ${w.jobsPerWeek} workshop jobs a week, where the busiest year needs at least ${w.replacementNeed.toFixed(2)} replacements a child.`,
    ),
    'Per child-year with 95 % intervals:',
    '',
    textTable(
      [
        'Policy',
        'Weighted days beyond use',
        'Wear thrown away, days',
        'Both as one cost',
        'Visits',
        'Casts',
        'Adjusted',
        'Parts',
        'Overtime weeks a year',
      ],
      summaries.map((s) => [
        s.policy,
        cell(s.weightedDays, 1),
        cell(s.thrownAwayDays, 0),
        cell(s.cost, 1),
        cell(s.visits, 2),
        cell(s.casts, 2),
        s.adjustments.mean.toFixed(2),
        s.parts.mean.toFixed(2),
        s.overtimeWeeks.mean.toFixed(1),
      ]),
    ),
    '',
    bestInWords(summaries),
    ...atEqualVisits(summaries).map(
      (c) =>
        `${c.policy}: ${c.weightedDays.toFixed(1)} weighted days beyond use at ${c.visits.toFixed(2)} visits, against ${c.fixedWeightedDays.toFixed(1)} at ${c.fixedVisits.toFixed(2)} (${c.fixed}): ${Math.round(100 * c.ratio)} %; ${cell(c.fewer, 1)} fewer, child by child.`,
    ),
    '',
    `${report.seconds} seconds.`,
  ].join('\n');
}
