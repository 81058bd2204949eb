import { quantileSorted } from 'simple-statistics';
import { recallSettings } from '../../recall/decide/recall-settings.js';
import { DAYS_A_YEAR } from '../../records/dates.js';
import { randomStream } from '../../statistics/random-stream.js';
import type { ChildOutcome, PolicyOutcome, RecallPolicy } from './contract.js';

/** A mean with the interval that holds 95 % of bootstrap resamples. */
export interface Interval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export type PolicySummary = ReturnType<typeof summarisePolicy>;

/** A day longer in use against a day beyond use, as the shipped accepted chance has it: p / (1 - p), one half. */
const { acceptedChance: SHIPPED } = recallSettings.parse({});
const WASTE = SHIPPED / (1 - SHIPPED);
const RESAMPLES = 1000;
const QUARTER_WEEKS = 13;

export function policyName(policy: RecallPolicy): string {
  if (policy.kind === 'forecast') {
    const accepted =
      policy.acceptedChance === undefined
        ? ''
        : `, accepted ${Math.round(100 * policy.acceptedChance)} %${policy.acceptedChance === SHIPPED ? ' (shipped)' : ''}`;
    return `forecast${accepted}${policy.levelled ? ', levelled' : ', not levelled'}`;
  }
  if (policy.castAheadShare <= 0) return `${policy.months}-monthly, cast every time`;
  return `${policy.months}-monthly, cast at ${Math.round(policy.castAheadShare * 100)} %`;
}

/** Efron's percentile bootstrap (Efron 1979, Annals of Statistics 7:1) by child: one child's years are not independent. */
export function summarisePolicy(outcome: PolicyOutcome, seed: number) {
  const { children, overtimeWeeks } = outcome;
  const perYear = (pick: (c: ChildOutcome) => number) =>
    bootstrap(
      children.map((c) => pick(c) / c.years),
      seed,
    );
  const quarters = Array.from({ length: Math.ceil(overtimeWeeks.length / QUARTER_WEEKS) }, (_, q) => {
    const part = overtimeWeeks.slice(q * QUARTER_WEEKS, (q + 1) * QUARTER_WEEKS);
    return (part.filter(Boolean).length / part.length) * (DAYS_A_YEAR / 7);
  });
  // Wear thrown away at what the clinic gives for a day longer in use: what is to be small.
  const costOf = (c: ChildOutcome) => c.weightedDays + WASTE * c.thrownAwayDays;
  const ofEach = (pick: (c: ChildOutcome) => number) =>
    children.map((c) => Math.round((100 * pick(c)) / c.years) / 100);
  return {
    policy: policyName(outcome.policy),
    children: children.length,
    // Per child-year; children resampled.
    weightedDays: perYear((c) => c.weightedDays),
    thrownAwayDays: perYear((c) => c.thrownAwayDays),
    cost: perYear(costOf),
    visits: perYear((c) => c.visits),
    casts: perYear((c) => c.casts),
    adjustments: perYear((c) => c.adjustments),
    parts: perYear((c) => c.parts),
    // Weeks with more visits than slots, per clinic-year; quarters of a year resampled.
    overtimeWeeks: bootstrap(quarters, seed),
    // Of each child in the order of the world, a year: two policies are compared child by child.
    ofChildren: { weightedDays: ofEach((c) => c.weightedDays), cost: ofEach(costOf) },
  };
}

export function bootstrap(values: readonly number[], seed: number): Interval {
  const random = randomStream(seed);
  const mean = values.reduce((s, v) => s + v, 0) / values.length;
  const means = Array.from({ length: RESAMPLES }, () => {
    let sum = 0;
    for (let k = 0; k < values.length; k++) sum += values[Math.floor(random.uniform() * values.length)];
    return sum / values.length;
  }).sort((a, b) => a - b);
  return { mean, low: quantileSorted(means, 0.025), high: quantileSorted(means, 0.975) };
}
