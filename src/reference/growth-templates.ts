import { type MeasureId, measures } from '../records/measure.js';
import { publishedGrowth } from './published-growth.js';
import { referenceCurve } from './reference-curve.js';
import type { ReferenceSex } from './reference-table.js';

/**
 * The published median curve a measure's own is expected to resemble up to a slowly changing ratio, used as
 * the template of its fit: stature for a skeletal length, the square root of weight over stature for a girth
 * (a limb taken as a cylinder). Heads follow neither, and weight its own table.
 */
export function growthTemplate(measure: MeasureId, sex: ReferenceSex): (ageYears: number) => number {
  if (measure.startsWith('head_')) return () => 1;
  const stature = medianOf('stature', sex);
  const weight = medianOf('weight', sex);
  if (measure === 'weight') return weight;
  if (measures[measure].skeletal) return stature;
  return (age) => Math.sqrt(weight(age) / stature(age));
}

function medianOf(measure: 'stature' | 'weight', sex: ReferenceSex) {
  const curve = referenceCurve(
    publishedGrowth(measure).filter((r) => r.sex === sex),
    'published',
  );
  return (age: number) => curve.at(age).m;
}
