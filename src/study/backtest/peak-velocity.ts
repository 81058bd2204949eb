import type { GrowthRecord } from './growth-record.js';
import { trueCurve } from './true-curve.js';

/** Ages between which the adolescent peak is looked for, years; outside lie infancy and noise near full size. */
const SEARCH = { male: [10.5, 17], female: [8.75, 15.5] } as const;
const STEP_YEARS = 0.25;

/**
 * Age at peak height velocity from a child's whole record, years: greatest yearly growth of stature
 * (from half a year before to half a year after), its top refined by a parabola. Null where the record does
 * not show a rise and a fall. It looks at the future: only for judging and for simulating a maturity marker.
 */
export function ageAtPeakVelocity(record: GrowthRecord): number | null {
  const curve = trueCurve(record, 'stature');
  if (curve === null) return null;
  const [from, to] = SEARCH[record.sex];
  const velocity = (age: number) => curve.at(age + 0.5) - curve.at(age - 0.5);
  let best = Number.NaN;
  for (let age = from; age <= to; age += STEP_YEARS) {
    if (age - 0.5 < curve.fromAge || age + 0.5 > curve.toAge) continue;
    if (Number.isNaN(best) || velocity(age) > velocity(best)) best = age;
  }
  if (Number.isNaN(best) || best <= from || best >= to) return null;
  const [before, top, after] = [best - 0.5, best, best + 0.5].map(velocity);
  const curvature = before - 2 * top + after;
  if (before > top || after > top || curvature >= 0) return null;
  return best + (0.5 * 0.5 * (before - after)) / curvature;
}
