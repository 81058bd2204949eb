import { chance } from '../demo/chance.js';
import { demoClinic } from '../demo/demo-clinic.js';
import { trueGrowth } from '../demo/true-growth.js';
import type { GrowthInput } from '../growth/contract.js';
import { decimalAgeYears } from '../records/age.js';
import { addDaysIso, DAYS_A_YEAR, type DayNumber, dayNumber, type IsoDate } from '../records/dates.js';
import type { MeasureId, Series } from '../records/measure.js';
import { reviewIntervalDays } from '../rules/by-age.js';
import { loadRules } from '../rules/load-rules.js';
import { randomStream } from '../statistics/random-stream.js';
import { hash } from '../study/backtest/clinic-noise.js';
import type { GrowthRecord } from '../study/backtest/growth-record.js';
import { trueCurve } from '../study/backtest/true-curve.js';
import type { SimulatedChild } from '../study/simulate/contract.js';

/** A simulated child with everything its world can measure; who it is, for the growth model. */
export interface WorldChild extends SimulatedChild {
  readonly limiting: Series;
  readonly who: Omit<GrowthInput, 'measurements' | 'markers'>;
  /** True sizes by series; null where the curve is not known at that day. */
  readonly sizes: readonly { readonly series: Series; readonly at: (day: DayNumber) => number | null }[];
}

/** Growth a device takes before it is outgrown, mm: a KAFO's leg section, an AFO's foot plate (common practice). */
const LEG_ALLOWANCE_MM = 15;
const FOOT_ALLOWANCE_MM = 8;

/** The usual review of the kind of device, by age and skin. */
const reviews = (family: string, birthDate: IsoDate, insensateSkin: boolean) => {
  const rule = loadRules().get(family)!;
  return (day: DayNumber) => reviewIntervalDays(rule, decimalAgeYears(birthDate, day), insensateSkin);
};

/** Children of a file of real curves, each starting a year and a half's choice after its first leg length. */
export function childrenOfCurves(
  records: readonly GrowthRecord[],
  start: IsoDate,
  years: number,
  seed: number,
): WorldChild[] {
  return records.flatMap((record): WorldChild[] => {
    const leg = trueCurve(record, 'leg_length');
    const stature = trueCurve(record, 'stature');
    if (leg === null || stature === null) return [];
    const random = randomStream(hash(`${seed}|${record.id}`));
    const startAge = leg.fromAge + 0.6 + 1.5 * random.uniform();
    if (leg.toAge < startAge + years - 0.5) return [];
    const birthDate = addDaysIso(start, -Math.round(startAge * DAYS_A_YEAR));
    const within = (curve: typeof leg, day: DayNumber) => {
      const age = decimalAgeYears(birthDate, day);
      return age < curve.fromAge ? null : curve.at(Math.min(age, curve.toAge));
    };
    const limiting: Series = { measure: 'leg_length', side: 'none' };
    return [
      {
        id: record.id,
        insensateSkin: false,
        allowanceMm: LEG_ALLOWANCE_MM,
        trueSize: (day) => within(leg, day) ?? leg.at(leg.fromAge),
        reviewEveryDays: reviews('kafo', birthDate, false),
        limiting,
        who: { birthDate, sex: record.sex, gestationWeeks: null, conditions: [], affectedSide: 'none' },
        sizes: [
          { series: limiting, at: (day) => within(leg, day) },
          { series: { measure: 'stature', side: 'none' }, at: (day) => within(stature, day) },
        ],
      },
    ];
  });
}

const DEMO_AGES = [3, 11] as const;
const DEMO_MEASURES: readonly MeasureId[] = ['foot_length', 'stature'];

/** Growing children of the invented clinic, each with an ankle-foot orthosis whose plate the left foot outgrows. */
export function childrenOfDemo(count: number, start: IsoDate, seed: number): WorldChild[] {
  const { caseload } = demoClinic({ children: 3 * count, seed, today: start });
  return caseload.children
    .filter((c) => {
      const age = decimalAgeYears(c.birthDate, start);
      return c.sex !== 'unknown' && age >= DEMO_AGES[0] && age <= DEMO_AGES[1];
    })
    .slice(0, count)
    .map((child): WorldChild => {
      const growth = trueGrowth(child, [], chance(hash(`${seed}|${child.id}`)));
      const series = DEMO_MEASURES.map(
        (m): Series => ({ measure: m, side: m === 'foot_length' ? 'left' : 'none' }),
      );
      // The invented residual curve must not shrink a bone.
      let greatest = 0;
      const day0 = dayNumber(start) - 730;
      const risen = Array.from(
        { length: 520 },
        (_, w) => (greatest = Math.max(greatest, growth.size('foot_length', 'left', day0 + 7 * w))),
      );
      const trueSize = (day: DayNumber) => risen[Math.max(0, Math.min(519, Math.floor((day - day0) / 7)))];
      return {
        id: child.id,
        insensateSkin: child.insensateSkin,
        allowanceMm: FOOT_ALLOWANCE_MM,
        trueSize,
        reviewEveryDays: reviews('solid-afo', child.birthDate, child.insensateSkin),
        limiting: series[0],
        who: {
          birthDate: child.birthDate,
          sex: child.sex,
          gestationWeeks: child.gestationWeeks,
          conditions: child.conditions,
          affectedSide: 'none',
        },
        sizes: series.map((s) => ({
          series: s,
          at: (day: DayNumber) =>
            s.measure === 'foot_length' ? trueSize(day) : growth.size(s.measure, s.side, day),
        })),
      };
    });
}
