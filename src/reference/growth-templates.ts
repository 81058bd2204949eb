import { isHeadMeasure, type MeasureId, measures } from '../records/measure.js';
import { growthAxis } from './growth-axis.js';
import { loadReferenceRows } from './load-reference-source.js';
import { referenceCurve } from './reference-curve.js';
import type { ReferenceSex } from './reference-table.js';

/** WHO 2006 measures lying up to two years and standing after; a child stood up is this much shorter there. */
const STANDS_YEARS = 2;
const LYING_MM = 7;
/** Ages between which WHO 2006 hands over to CDC 2000: the two agree there in size and in velocity. */
const HAND_OVER_YEARS = [2.25, 4.5] as const;

/**
 * By how many years a measure's spurt comes before stature's. Feet peak first: two years before stature by Frontiers in
 * Public Health 2024, 12:1322333 (abstract), first of all by Busscher et al. 2010 (abstract). The survey itself allows
 * boys' feet 0-2 years and puts them about one year ahead; girls' it takes as they are, full-grown at 13.
 */
const LEADS_YEARS: Partial<Record<`${MeasureId}/${ReferenceSex}`, number>> = {
  'foot_length/male': 1,
  'foot_breadth/male': 1,
};
/** The lead comes in between the first two ages and goes again between the last: the end of growth is the records' own. */
const LEAD_YEARS = [4, 9, 14, 18] as const;
function leadShare(ageYears: number): number {
  const [from, full, until, gone] = LEAD_YEARS;
  const f = Math.min(
    1,
    Math.max(0, Math.min((ageYears - from) / (full - from), (gone - ageYears) / (gone - until))),
  );
  return f * f * (3 - 2 * f);
}

/**
 * The published median curve a measure's own is expected to resemble up to a slowly changing ratio, used as
 * the template of its fit: stature for a skeletal length, the square root of weight over stature for a girth
 * (a limb taken as a cylinder), head circumference for heads. Weight follows its own table.
 */
export function growthTemplate(measure: MeasureId, sex: ReferenceSex): (ageYears: number) => number {
  if (isHeadMeasure(measure)) return headMedian(sex);
  const stature = smoothMedian('stature', sex);
  const weight = smoothMedian('weight', sex);
  if (measure === 'weight') return weight;
  if (measures[measure].skeletal) {
    const lead = LEADS_YEARS[`${measure}/${sex}`] ?? 0;
    return (age) => stature(age + lead * leadShare(age));
  }
  return (age) => Math.sqrt(weight(age) / stature(age));
}

/**
 * WHO 2006, then CDC 2000, without the steps between lying and standing and between the two: a template's
 * velocity is handed on to every measure fitted on it.
 */
function smoothMedian(measure: 'stature' | 'weight', sex: ReferenceSex): (ageYears: number) => number {
  const rows = (source: string) =>
    loadReferenceRows(source).filter((r) => r.measure === measure && r.sex === sex);
  const who = rows('who-2006');
  const lying = who.filter((r) => r.ageYears < STANDS_YEARS);
  // In proportion, so that the rate of growth keeps its shape.
  const stoodUp = measure === 'stature' ? 1 - LYING_MM / Math.max(...lying.map((r) => r.m)) : 1;
  const young = referenceCurve(
    who.map((r) => (r.ageYears < STANDS_YEARS ? { ...r, m: r.m * stoodUp } : r)),
    'who-2006',
  );
  const old = referenceCurve(rows('cdc-2000'), 'cdc-2000');
  const [from, to] = HAND_OVER_YEARS;
  return (age) => {
    if (age <= from) return young.at(age).m;
    if (age >= to) return old.at(age).m;
    const f = (age - from) / (to - from);
    const share = f * f * (3 - 2 * f);
    return young.at(age).m ** (1 - share) * old.at(age).m ** share;
  };
}

/** WHO 2006 to its last age, 5 years; from there on at the pace of its last year, on the axis growth runs out on. */
function headMedian(sex: ReferenceSex): (ageYears: number) => number {
  const rows = loadReferenceRows('who-2006').filter(
    (r) => r.measure === 'head_circumference' && r.sex === sex,
  );
  const who = referenceCurve(rows, 'who-2006');
  const last = who.toYears;
  const pace = Math.log(who.at(last).m / who.at(last - 1).m);
  return (age) =>
    who.at(Math.min(age, last)).m * Math.exp(pace * Math.max(0, growthAxis(age) - growthAxis(last)));
}
