import { dayNumber } from '../../records/dates.js';
import { technicalErrorAt } from '../../records/measure.js';
import { groupBy } from '../../statistics/group-by.js';
import type { GrowthInput } from '../contract.js';
import { growthAgeYears, logAge } from '../population/growth-age.js';
import type { GrowthModel } from '../population/growth-model.js';
import { sdToScale, toScale } from '../population/growth-scale.js';
import { type SideCode, sideCode } from '../population/points.js';

/** One fact the model is fitted to: one reading, or several agreeing ones of the same series and day. */
export interface Reading {
  readonly ids: readonly string[];
  readonly measure: number;
  readonly side: SideCode;
  readonly ageYears: number;
  readonly x: number;
  /** On the model's scale. */
  readonly value: number;
  readonly variance: number;
}

/** Readings of a day that differ by more than this many of their joint errors are kept apart. */
const AGREE_WITHIN_SD = 4;

/** Measurements the model knows, by age; repeats of a day that agree become one reading with less error. */
export function readings(input: GrowthInput, model: GrowthModel): Reading[] {
  const known = input.measurements.filter((m) => model.index.has(m.measure));
  const groups = groupBy(known, (m) => `${m.measure}/${m.side}/${m.date}`);
  const out: Reading[] = [];
  for (const group of groups.values()) {
    const single = group.map((m): Reading => {
      const ageYears = growthAgeYears(input.birthDate, dayNumber(m.date), input.gestationWeeks);
      const error = m.technicalError ?? technicalErrorAt(m.measure, ageYears);
      return {
        ids: [m.id],
        measure: model.index.get(m.measure) as number,
        side: sideCode(m.side),
        ageYears,
        x: logAge(ageYears),
        value: toScale(m.measure, m.value),
        variance: sdToScale(m.measure, error, m.value) ** 2,
      };
    });
    out.push(...merge(single));
  }
  return out.sort((a, b) => a.x - b.x);
}

function merge(day: Reading[]): Reading[] {
  const sorted = [...day].sort((a, b) => a.value - b.value);
  const out: Reading[] = [];
  for (const r of sorted) {
    const last = out.at(-1);
    const apart =
      last && Math.abs(r.value - last.value) > AGREE_WITHIN_SD * Math.sqrt(r.variance + last.variance);
    if (!last || apart) {
      out.push(r);
      continue;
    }
    const variance = 1 / (1 / last.variance + 1 / r.variance);
    const value = variance * (last.value / last.variance + r.value / r.variance);
    out[out.length - 1] = { ...last, ids: [...last.ids, ...r.ids], value, variance };
  }
  return out;
}
