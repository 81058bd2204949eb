import type { GrowthModel } from '../../../growth/growth-model.js';
import { rounded } from '../../../statistics/rounded.js';
import type { SizeCurve } from '../baselines.js';
import type { GrowthRecord } from '../growth-record.js';
import { fixedReviews } from './fixed-review.js';
import { plannedRecall, riskRecall } from './planned-recall.js';
import type { RecallPolicy } from './recall-policy.js';
import { type RecallSettings, simulateRecall } from './simulate-recall.js';

/** What a policy costs a child-year. */
export interface PolicyRow {
  readonly policy: string;
  readonly setting: string;
  readonly allowanceMm: number;
  readonly turnaroundDays: number;
  readonly noise: string;
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
  policy: RecallPolicy,
  settings: RecallSettings,
): PolicyRow | null {
  const costs = records.flatMap((record) => simulateRecall(record, policy, settings) ?? []);
  if (costs.length === 0) return null;
  const total = (pick: (c: (typeof costs)[number]) => number) => costs.reduce((sum, c) => sum + pick(c), 0);
  const childYears = total((c) => c.childYears);
  const days = total((c) => c.daysOutgrown) / childYears;
  const squares = total((c) => (c.daysOutgrown - days * c.childYears) ** 2);
  const k = costs.length;
  return {
    policy: policy.policy,
    setting: policy.setting,
    allowanceMm: settings.allowanceMm,
    turnaroundDays: settings.turnaroundDays,
    noise: settings.noise,
    children: k,
    childYears: rounded(childYears, 1),
    visitsPerYear: rounded(total((c) => c.visits) / childYears, 3),
    daysOutgrownPerYear: rounded(days, 2),
    daysOutgrownSeByChild: rounded(k < 2 ? 0 : Math.sqrt((k / (k - 1)) * squares) / childYears, 2),
    castsPerYear: rounded(total((c) => c.casts) / childYears, 3),
  };
}

const allowancesMm = [10, 15, 20] as const;
/** Risk tolerances, and prices of a visit and a cast in days outgrown, that the forecast-driven recall is swept over. */
const tolerances = [0.1, 0.2, 0.3] as const;
const prices = [
  { visitDays: 5, castDays: 10 },
  { visitDays: 10, castDays: 20 },
  { visitDays: 20, castDays: 40 },
] as const;
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
  const risk = tolerances.map((tolerance) => riskRecall(model, noise, seed, tolerance));
  const planned = prices.map((price) => plannedRecall(model, noise, seed, price));
  const atOnce = allowancesMm.flatMap((allowanceMm) =>
    [...fixedReviews(published), ...risk, ...planned].map((policy) => ({
      policy,
      allowanceMm,
      turnaroundDays: 0,
    })),
  );
  const made = [...fixedReviews(published), planned[1]].map((policy) => ({
    policy,
    allowanceMm: 15,
    turnaroundDays: TURNAROUND_DAYS,
  }));
  return [...atOnce, ...made].flatMap(({ policy, ...settings }, done, all) => {
    const row = policyRow(records, policy, { ...settings, noise, seed });
    progress(done + 1, all.length);
    return row ?? [];
  });
}
