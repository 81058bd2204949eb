import type { GrowthModel } from '../../../growth/population/growth-model.js';
import { rounded } from '../../../statistics/rounded.js';
import type { SizeCurve } from '../baselines.js';
import type { GrowthRecord } from '../growth-record.js';
import { fixedReviews } from './fixed-review.js';
import { oracle } from './oracle.js';
import { plannedRecall, riskRecall } from './planned-recall.js';
import type { RecallPolicy } from './recall-policy.js';
import { RECALL_AGES, type RecallSettings, simulateRecall } from './simulate-recall.js';

/** What a policy costs a child-year. */
export interface PolicyRow {
  readonly policy: string;
  readonly setting: string;
  readonly allowanceMm: number;
  readonly turnaroundDays: number;
  readonly noise: string;
  /** Counted from this birthday to that one. */
  readonly fromAge: number;
  readonly toAge: number;
  readonly children: number;
  readonly childYears: number;
  readonly visitsPerYear: number;
  readonly daysOutgrownPerYear: number;
  /** Standard error of the days, counting children. */
  readonly daysOutgrownSeByChild: number;
  readonly castsPerYear: number;
}

export function policyRow(
  records: readonly GrowthRecord[],
  policyFor: (record: GrowthRecord) => RecallPolicy,
  settings: RecallSettings,
): PolicyRow | null {
  const costs = records.flatMap((record) => simulateRecall(record, policyFor(record), settings) ?? []);
  if (costs.length === 0) return null;
  const { policy, setting } = policyFor(records[0]);
  const total = (pick: (c: (typeof costs)[number]) => number) => costs.reduce((sum, c) => sum + pick(c), 0);
  const childYears = total((c) => c.childYears);
  const days = total((c) => c.daysOutgrown) / childYears;
  const squares = total((c) => (c.daysOutgrown - days * c.childYears) ** 2);
  const k = costs.length;
  return {
    policy,
    setting,
    allowanceMm: settings.allowanceMm,
    turnaroundDays: settings.turnaroundDays,
    noise: settings.noise,
    fromAge: RECALL_AGES.from,
    toAge: settings.toAge ?? RECALL_AGES.to,
    children: k,
    childYears: rounded(childYears, 1),
    visitsPerYear: rounded(total((c) => c.visits) / childYears, 3),
    daysOutgrownPerYear: rounded(days, 2),
    daysOutgrownSeByChild: rounded(k < 2 ? 0 : Math.sqrt((k / (k - 1)) * squares) / childYears, 2),
    castsPerYear: rounded(total((c) => c.casts) / childYears, 3),
  };
}

const allowancesMm = [10, 15, 20] as const;
/** What the backtest's one allowance in common with the goals is: swept over most settings. */
const MIDDLE_MM = 15;
/** Risk tolerances, and prices of a visit and a cast in days outgrown, that the forecast-driven recall is swept over. */
const tolerances = [0.1, 0.2, 0.3] as const;
const prices = [
  { visitDays: 4, castDays: 8 },
  { visitDays: 8, castDays: 16 },
  { visitDays: 10, castDays: 20 },
  { visitDays: 14, castDays: 28 },
] as const;
/** A narrower window for one setting and the oracle: faster growth, so more of everything. */
const NARROW_TO_AGE = 15;
/** Days from cast to fitting at which one setting of each kind is repeated (an AFO's default, common practice). */
const TURNAROUND_DAYS = 21;

/** Every review policy at every allowance, with clinic noise at each visit whatever the backtest's own noise. */
export function comparePolicies(
  records: readonly GrowthRecord[],
  model: GrowthModel,
  published: SizeCurve,
  seed: number,
  progress: (done: number, of: number) => void,
): PolicyRow[] {
  const noise = 'clinic';
  const fixed = fixedReviews(published);
  const planned = prices.map((price) => plannedRecall(model, noise, seed, price));
  const risk = tolerances.map((tolerance) => riskRecall(model, noise, seed, tolerance));
  const run = (allowanceMm: number, turnaroundDays: number, policies: readonly RecallPolicy[]) =>
    policies.map((policy) => ({ policyFor: (_: GrowthRecord) => policy, allowanceMm, turnaroundDays }));
  const narrow = [oracle, (_: GrowthRecord) => planned[1]].map((policyFor) => ({
    policyFor,
    allowanceMm: MIDDLE_MM,
    turnaroundDays: 0,
    toAge: NARROW_TO_AGE,
  }));
  const all = [
    ...allowancesMm.map((allowanceMm) => ({ policyFor: oracle, allowanceMm, turnaroundDays: 0 })),
    ...allowancesMm.flatMap((allowanceMm) => run(allowanceMm, 0, [...fixed, ...planned])),
    ...run(MIDDLE_MM, 0, risk),
    ...run(MIDDLE_MM, TURNAROUND_DAYS, [...fixed, planned[1]]),
    ...narrow,
  ];
  return all.flatMap(({ policyFor, ...settings }, done) => {
    const row = policyRow(records, policyFor, { ...settings, noise, seed });
    progress(done + 1, all.length);
    return row ?? [];
  });
}
