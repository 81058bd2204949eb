/** What each recall policy costs: days outgrown, visits, casts and overtime, each with its interval, policies in rows. */
import { fillSpec, type Spec } from './fill-spec.js';
import { timeLocale } from './time-locale.js';

interface Interval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface PolicyRow {
  readonly policy: string;
  readonly weightedDays: Interval;
  readonly thrownAwayDays: Interval;
  readonly visits: Interval;
  readonly casts: Interval;
  readonly overtimeWeeks: Interval;
}

const panels = [
  ['weightedDays', 'Weighted days beyond use a child-year'],
  ['thrownAwayDays', 'Days of wear thrown away a child-year'],
  ['visits', 'Visits a child-year'],
  ['casts', 'Casts a child-year'],
  ['overtimeWeeks', 'Overtime weeks a clinic-year'],
] as const;

export function policyComparisonChart(input: {
  readonly summaries: readonly PolicyRow[];
  readonly language?: string;
}): Spec {
  const { summaries, language = 'en' } = input;
  const rows = summaries.flatMap((s) =>
    panels.map(([key, panel]) => ({
      policy: s.policy,
      panel,
      ...s[key],
      kind: s.policy.startsWith('forecast') ? 'forecast-driven recall' : 'fixed review',
    })),
  );
  return fillSpec(
    'policy-comparison',
    {
      title: 'What each recall policy costs',
      subtitle: 'Simulated caseload. Point: mean; line: 95 % interval. Less is better in every panel.',
      description: `${summaries.length} recall policies compared in a simulated caseload`,
      policies: summaries.map((s) => s.policy),
      panels: panels.map(([, panel]) => panel),
      kinds: ['fixed review', 'forecast-driven recall'],
    },
    { policies: rows },
    timeLocale(language),
  );
}
