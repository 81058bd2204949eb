import { rounded } from '../../../statistics/rounded.js';
import type { GrowthRecord } from '../growth-record.js';
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
