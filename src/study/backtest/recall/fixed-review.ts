import { DAYS_A_YEAR } from '../../../records/dates.js';
import type { SizeCurve } from '../baselines.js';
import type { RecallPolicy, VisitState } from './recall-policy.js';

const months = [3, 4, 6, 12] as const;

/** A hand rule for casting ahead of time at a fixed review. */
interface HandRule {
  readonly setting: string;
  readonly recast: (state: VisitState, intervalYears: number) => boolean;
}

/** Measured growth since the cast, mm: today's reading less the one taken on the day of the cast. */
function measuredGrowthMm({ known, castAgeYears }: VisitState): number {
  const read = known.visits.filter((v) => v.sizes.leg_length !== undefined);
  const atCast = read.findLast((v) => v.ageYears <= castAgeYears + 1e-6) ?? read[0];
  return read[read.length - 1].sizes.leg_length! - atCast.sizes.leg_length!;
}

/** Review every so many months whoever the child is, with the ways a clinic may cast ahead. */
export function fixedReviews(published: SizeCurve): RecallPolicy[] {
  const share = (of: number): HandRule => ({
    setting: `cast ahead at ${Math.round(of * 100)} % of the allowance`,
    recast: (state) => measuredGrowthMm(state) >= of * state.allowanceMm,
  });
  const rules: readonly HandRule[] = [
    { setting: 'cast when outgrown', recast: () => false },
    share(0.75),
    share(0.5),
    {
      setting: 'cast ahead when the published increment to the next review exceeds the room',
      recast: (state, intervalYears) => {
        const { sex, visits } = state.known;
        const age = visits[visits.length - 1].ageYears;
        const median = (at: number) => published('leg_length', sex, at).m;
        const expected = median(age + intervalYears) - median(age);
        return measuredGrowthMm(state) + expected > state.allowanceMm;
      },
    },
  ];
  return months.flatMap((interval) =>
    rules.map(
      ({ setting, recast }): RecallPolicy => ({
        policy: `fixed ${interval}-monthly`,
        setting,
        decide: (state) => ({
          recast: recast(state, interval / 12),
          nextVisitDays: Math.round((interval / 12) * DAYS_A_YEAR),
        }),
      }),
    ),
  );
}
