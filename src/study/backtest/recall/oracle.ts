import { DAYS_A_YEAR } from '../../../records/dates.js';
import type { GrowthRecord } from '../growth-record.js';
import { trueCurve } from '../true-curve.js';
import type { RecallPolicy } from './recall-policy.js';

const FARTHEST_DAYS = 3650;

/** Recall by somebody who knows the future: a new cast on the last day the old one is good. The least anyone needs. */
export function oracle(record: GrowthRecord): RecallPolicy {
  const leg = trueCurve(record, 'leg_length');
  return {
    policy: 'oracle',
    setting: 'knows the true curve: cast on the last good day',
    decide({ known, allowanceMm }) {
      const age = known.visits[known.visits.length - 1].ageYears;
      let day = 1;
      if (leg !== null)
        while (day < FARTHEST_DAYS && leg.at(age + day / DAYS_A_YEAR) - leg.at(age) <= allowanceMm) day++;
      return { recast: true, nextVisitDays: Math.max(1, day - 1) };
    },
  };
}
