import { DAYS_A_YEAR } from '../../../records/dates.js';
import { type Noise, noisyVisit, withNoise } from '../clinic-noise.js';
import {
  type BacktestMeasure,
  backtestMeasures,
  type GrowthRecord,
  knownAt,
  type Visit,
} from '../growth-record.js';
import { type TrueCurve, trueCurve } from '../true-curve.js';
import type { RecallPolicy } from './recall-policy.js';

/**
 * Whole years of age 9 to 15, as the goals count them: from the ninth birthday to the day before the sixteenth.
 * Before, the Berkeley records have no leg length with a history; after, most have stopped growing.
 */
export const RECALL_AGES = { from: 9, to: 16 } as const;
/** Yearly visits the clinic has on the day the first device is cast. */
const HISTORY = 3;
/** Readings older than this many visits are left out of what a policy sees. */
const VISITS_KEPT = 9;

export interface RecallSettings {
  readonly allowanceMm: number;
  /** Days from cast to fitting; the old device is worn until then. */
  readonly turnaroundDays: number;
  readonly noise: Noise;
  readonly seed: number;
  /** Birthday at which counting ends, for a narrower window than `RECALL_AGES`. */
  readonly toAge?: number;
}

/** What a policy cost one child. */
export interface RecallCost {
  readonly childYears: number;
  readonly visits: number;
  readonly casts: number;
  readonly daysOutgrown: number;
}

/**
 * One child through one policy over `RECALL_AGES`. The first device, cast at the start, is not counted. A device
 * is outgrown on the day leg length on the true curve exceeds its size at the cast by more than the allowance, and
 * days count until its replacement is fitted. Null where the record has no leg length over those ages.
 */
export function simulateRecall(
  record: GrowthRecord,
  policy: RecallPolicy,
  settings: RecallSettings,
): RecallCost | null {
  const { allowanceMm, turnaroundDays, noise, seed } = settings;
  const leg = trueCurve(record, 'leg_length');
  const start = knownAt(withNoise(record, noise, seed), RECALL_AGES.from, HISTORY);
  if (leg === null || start === null) return null;
  const startAge = start.visits[start.visits.length - 1].ageYears;
  const endDay = Math.round((Math.min(settings.toAge ?? RECALL_AGES.to, leg.toAge) - startAge) * DAYS_A_YEAR);
  if (leg.fromAge > startAge || endDay <= 0) return null;
  const others = curvesOf(record);
  const ageAt = (day: number) => startAge + day / DAYS_A_YEAR;
  const size = (day: number) => leg.at(ageAt(day));
  const outgrownDay = (castDay: number) => {
    for (let day = castDay; day < endDay; day++) if (size(day) - size(castDay) > allowanceMm) return day;
    return endDay;
  };
  let visits: readonly Visit[] = start.visits;
  let castDay = 0;
  let fittedDay = 0;
  let visitCount = 0;
  let casts = 0;
  let daysOutgrown = 0;
  const decide = (day: number, outgrown: boolean) =>
    policy.decide({
      known: { sex: record.sex, visits: visits.slice(-VISITS_KEPT) },
      castAgeYears: ageAt(castDay),
      outgrown: outgrown || day === 0,
      allowanceMm,
      turnaroundDays,
    });
  const wear = (untilDay: number) => {
    daysOutgrown += Math.max(0, Math.min(untilDay, endDay) - Math.max(outgrownDay(castDay), fittedDay));
  };
  let next = decide(0, false).nextVisitDays;
  for (let day = next; day < endDay; day += next) {
    visitCount++;
    visits = [...visits, noiseAt(day)];
    const outgrown = size(day) - size(castDay) > allowanceMm;
    const decision = decide(day, outgrown);
    if (outgrown || decision.recast) {
      casts++;
      wear(day + turnaroundDays);
      castDay = day;
      fittedDay = day + turnaroundDays;
    }
    next = Math.max(1, Math.round(decision.nextVisitDays));
  }
  wear(endDay);
  return { childYears: endDay / DAYS_A_YEAR, visits: visitCount, casts, daysOutgrown };

  function noiseAt(day: number): Visit {
    const visit = { ageYears: ageAt(day), sizes: sizesAt(others, ageAt(day)) };
    return noise === 'clean' ? visit : noisyVisit(record.id, visit, seed);
  }
}

type Curves = readonly (readonly [BacktestMeasure, TrueCurve])[];

function curvesOf(record: GrowthRecord): Curves {
  return backtestMeasures.flatMap((measure) => {
    const curve = trueCurve(record, measure);
    return curve === null ? [] : [[measure, curve] as const];
  });
}

const sizesAt = (curves: Curves, ageYears: number): Visit['sizes'] =>
  Object.fromEntries(curves.map(([measure, curve]) => [measure, curve.at(ageYears)]));
