import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import type { MeasureId } from '../records/measure.js';
import { type Lms, lmsSizeAtZ } from '../statistics/lms.js';
import { normalQuantile } from '../statistics/normal-quantile.js';
import { growthTemplate } from './growth-templates.js';
import { loadReferenceSource } from './load-reference-source.js';
import { referenceKey } from './reference-curve.js';
import type { ReferenceSex } from './reference-table.js';

/** A value that stands for `weight` infants of an age in the fit. */
export interface InfantAnchor {
  readonly ageYears: number;
  readonly value: number;
  readonly weight: number;
}

/** One age group of the printed table of infants, both sexes together. */
export interface InfantGroup {
  readonly dimension: string;
  readonly fromMonths: number;
  readonly toMonths: number;
  readonly n: number;
  readonly meanMm: number;
  readonly sdMm: number;
  readonly p5Mm: number;
  readonly p50Mm: number;
  readonly p95Mm: number;
}

/** Where a measure's size under two years is taken from; source.md gives the reasons. */
type InfantShape =
  | { readonly from: 'printed'; readonly dimension: string; readonly sameMeasure?: boolean }
  | { readonly from: 'table'; readonly source: string; readonly measure: MeasureId }
  | { readonly from: 'template' };

const legs: InfantShape = { from: 'table', source: 'uk-1990', measure: 'leg_length' };
const heads: InfantShape = { from: 'table', source: 'who-2006', measure: 'head_circumference' };
const shapes: Partial<Record<MeasureId, InfantShape>> = {
  foot_length: { from: 'printed', dimension: 'foot_length', sameMeasure: true },
  foot_breadth: { from: 'printed', dimension: 'foot_breadth', sameMeasure: true },
  ankle_girth: { from: 'printed', dimension: 'ankle_girth', sameMeasure: true },
  calf_girth: { from: 'printed', dimension: 'calf_girth', sameMeasure: true },
  thigh_girth: { from: 'printed', dimension: 'mid_thigh_girth' },
  knee_height: { from: 'printed', dimension: 'knee_sole_length' },
  ankle_height: { from: 'printed', dimension: 'foot_length' },
  pelvic_breadth: { from: 'printed', dimension: 'hip_breadth' },
  hip_height: legs,
  asis_height: legs,
  leg_length: legs,
  sitting_height: { from: 'table', source: 'uk-1990', measure: 'sitting_height' },
  head_circumference: heads,
  head_breadth: heads,
  head_length: heads,
  stature: { from: 'table', source: 'who-2006', measure: 'stature' },
  weight: { from: 'table', source: 'who-2006', measure: 'weight' },
};

/** Where a rescaled shape is made to meet the children's own curve. */
const JOIN_YEARS = 2.5;
/** Values an age group is spread over, and infants a group without a printed count stands for. */
const VALUES = 15;
const ASSUMED_INFANTS = 15;

/**
 * Pseudo-records under two years, one sex: each printed age group becomes values at equal steps of
 * probability around its median. `children` is the fit to the children alone; it gives the level a rescaled
 * shape must meet at 2.5 years, the skewness, which the printed tables do not tell, and the spread of a
 * measure nobody printed.
 */
export function infantAnchors(
  measure: MeasureId,
  sex: ReferenceSex,
  children: (ageYears: number) => Lms,
): InfantAnchor[] {
  const shape = shapes[measure] ?? { from: 'template' };
  const { l, m, s } = children(JOIN_YEARS);
  const at = infantShape(shape, measure, sex);
  const scale = m / at(JOIN_YEARS);
  const printed = 'dimension' in shape ? groupsOf(shape.dimension) : null;
  return groupsOf('foot_length').flatMap((group, i) => {
    const ageYears = middleYears(group);
    const own = printed && 'sameMeasure' in shape ? printed[i] : null;
    const spread = own ? ownSpread(printed ?? [], i) : (publishedSpread(shape, sex, ageYears) ?? s);
    const infants = own ? own.n / 2 : ASSUMED_INFANTS;
    return Array.from({ length: VALUES }, (_, k) => ({
      ageYears,
      value: lmsSizeAtZ({ l, m: scale * at(ageYears), s: spread }, normalQuantile((k + 0.5) / VALUES)),
      weight: infants / VALUES,
    }));
  });
}

/** The median a shape gives at an age, before rescaling. A printed table is carried on by the template. */
function infantShape(
  shape: InfantShape,
  measure: MeasureId,
  sex: ReferenceSex,
): (ageYears: number) => number {
  const template = growthTemplate(measure, sex);
  if (shape.from === 'template') return template;
  if ('source' in shape) {
    const curve = loadReferenceSource(shape.source).curves.get(referenceKey(shape.measure, sex));
    if (!curve) throw new Error(`${shape.source} has no ${shape.measure}`);
    return (age) => curve.at(age).m;
  }
  const other = growthTemplate(measure, sex === 'male' ? 'female' : 'male');
  const groups = groupsOf(shape.dimension);
  return (age) => {
    const group = groups.findLast((g) => middleYears(g) <= age) ?? groups[0];
    const from = middleYears(group);
    // The table pools the sexes: each is as far from it as from the other in the template.
    return group.p50Mm * Math.sqrt(template(from) / other(from)) * (template(age) / template(from));
  };
}

function publishedSpread(shape: InfantShape, sex: ReferenceSex, ageYears: number): number | null {
  if (shape.from !== 'table') return null;
  return (
    loadReferenceSource(shape.source).curves.get(referenceKey(shape.measure, sex))?.at(ageYears).s ?? null
  );
}

/** Coefficient of variation of a group less what three months' growth inside it adds. */
function ownSpread(groups: readonly InfantGroup[], i: number): number {
  const [before, group, after] = [
    groups[Math.max(0, i - 1)],
    groups[i],
    groups[Math.min(groups.length - 1, i + 1)],
  ];
  const slope = (after.meanMm - before.meanMm) / (12 * (middleYears(after) - middleYears(before)));
  const grown = (slope * (group.toMonths - group.fromMonths)) ** 2 / 12;
  return Math.sqrt(Math.max(group.sdMm ** 2 - grown, (group.sdMm / 2) ** 2)) / group.meanMm;
}

const middleYears = (g: InfantGroup) => (g.fromMonths + g.toMonths) / 24;
const groupsOf = (dimension: string) => loadInfantGroups().filter((g) => g.dimension === dimension);

let cached: InfantGroup[] | undefined;
/** The printed table, reference-data/us-infants-1977/percentiles.csv. */
export function loadInfantGroups(): InfantGroup[] {
  if (cached) return cached;
  const path = fileURLToPath(
    new URL('../../reference-data/us-infants-1977/percentiles.csv', import.meta.url),
  );
  const rows: string[][] = parse(readFileSync(path), { from_line: 2 });
  cached = rows.map(([dimension, ...cells]) => {
    const [fromMonths, toMonths, n, meanMm, sdMm, p5Mm, p50Mm, p95Mm] = cells.map(Number);
    return { dimension, fromMonths, toMonths, n, meanMm, sdMm, p5Mm, p50Mm, p95Mm };
  });
  return cached;
}
