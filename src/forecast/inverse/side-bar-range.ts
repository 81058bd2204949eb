import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../../records/dates.js';
import type { MeasureId } from '../../records/measure.js';
import { type FamilyRule, sideBarOf } from '../../rules/fit-rule.js';
import { allowanceToLast } from './allowance-to-last.js';
import type { CastQuestion } from './growth-from-cast.js';

export interface SideBarOrder {
  readonly measure: MeasureId;
  /** Extension to order, mm, rounded up to whole hole steps. */
  readonly rangeMm: number;
  readonly steps: number;
  readonly stepMm: number;
  /** Growth the frame must take by then at these odds, mm. */
  readonly growthMm: number;
  /** False when more is needed than bars of this family usually give: plan a new frame earlier. */
  readonly withinUsual: boolean;
}

const DEFAULT_STEP_MM = 6;

/** How much side-bar extension to order so that the joint axis can follow until `until` at the given odds. */
export function sideBarRange(
  question: CastQuestion,
  rule: FamilyRule,
  measure: MeasureId,
  until: IsoDate,
  odds: number,
): SideBarOrder {
  const dimension = rule.dimensions.find((d) => d.measure === measure);
  const bar = dimension && sideBarOf(dimension);
  if (!dimension || !bar)
    throw new DoorpostError('invalid-value', `The family '${rule.id}' has no side bar for this dimension`, {
      field: 'measure',
      given: measure,
      accepted: rule.dimensions
        .filter(sideBarOf)
        .map((d) => d.measure)
        .join(', '),
    });
  const stepMm = bar.stepMm?.value ?? DEFAULT_STEP_MM;
  const series = question.series.filter((s) => s.measure === measure);
  const growthMm = allowanceToLast({ ...question, series }, until, odds);
  const steps = Math.ceil(Math.max(0, growthMm - dimension.allowanceMm.value) / stepMm);
  const rangeMm = steps * stepMm;
  return {
    measure,
    rangeMm,
    steps,
    stepMm,
    growthMm,
    withinUsual: rangeMm <= bar.upToMm.value,
  };
}
