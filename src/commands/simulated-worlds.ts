import { chance } from '../demo/chance.js';
import { demoClinic } from '../demo/demo-clinic.js';
import { trueGrowth } from '../demo/true-growth.js';
import { decimalAgeYears } from '../records/age.js';
import { type DayNumber, dayNumber, type IsoDate } from '../records/dates.js';
import { measures, type Series, type Side, seriesKey, seriesOf } from '../records/measure.js';
import type { Child } from '../records/records.js';
import type { FamilyRule } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import { hash } from '../study/backtest/clinic-noise.js';
import type { SimulatedChild } from '../study/simulate/contract.js';

const AGES = [3, 11] as const;
/** Weeks of growth before the start and in all that are worked out: history and eight years. */
const WEEKS_BEFORE = 104;
const WEEKS = 560;

/** Growing children of the invented clinic, each with the first of the devices it wears. */
export function simulatedWorld(count: number, start: IsoDate, seed: number): SimulatedChild[] {
  const { caseload } = demoClinic({ children: 4 * count, seed, today: start });
  const rules = loadRules();
  return caseload.children
    .filter((c) => {
      const age = decimalAgeYears(c.birthDate, start);
      return (
        c.sex !== 'unknown' && !c.palliative && c.status === 'active' && age >= AGES[0] && age <= AGES[1]
      );
    })
    .flatMap((child): SimulatedChild[] => {
      const worn = caseload.devices.find((d) => d.childId === child.id && d.status === 'worn');
      const rule = worn && rules.get(worn.family);
      // A course of treatment has an end of its own.
      if (!worn || !rule || rule.courseDays !== null) return [];
      return [{ child, rule, side: worn.side, trueSize: sizesOf(child, rule, dayNumber(start), seed) }];
    })
    .slice(0, count);
}

/** True sizes week by week; the invented residual curve must not shrink a bone. */
function sizesOf(child: Child, rule: FamilyRule, start: DayNumber, seed: number): SimulatedChild['trueSize'] {
  const affected: Side[] =
    child.affectedSide === 'left' || child.affectedSide === 'right' ? [child.affectedSide] : [];
  const growth = trueGrowth(child, affected, chance(hash(`${seed}|${child.id}`)));
  const first = start - 7 * WEEKS_BEFORE;
  const weekly = ({ measure, side }: Series): number[] => {
    let greatest = 0;
    return Array.from({ length: WEEKS }, (_, w) => {
      const size = growth.size(measure, side, first + 7 * w);
      greatest = Math.max(greatest, size);
      return measures[measure].skeletal ? greatest : size;
    });
  };
  // Worked out before anybody asks: a child's numbers are drawn in the order of asking.
  const sizes = new Map(
    [...rule.dimensions.map((d) => d.measure), 'stature' as const]
      .flatMap((measure) => seriesOf(measure))
      .map((series) => [seriesKey(series), weekly(series)] as const),
  );
  return (series, day) =>
    sizes.get(seriesKey(series))![Math.max(0, Math.min(WEEKS - 1, Math.floor((day - first) / 7)))];
}
