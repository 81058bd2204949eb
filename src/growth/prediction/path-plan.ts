import type { DayNumber } from '../../records/dates.js';
import type { MeasureId } from '../../records/measure.js';
import { denseCholesky } from '../../statistics/dense-cholesky.js';
import { type EvenNormals, evenNormals, WIDTH } from '../../statistics/even-normals.js';
import { groupBy } from '../../statistics/group-by.js';
import { pivotedFactor } from '../../statistics/pivoted-factor.js';
import type { Product } from '../../statistics/tensor/wide-products.js';
import type { Component } from '../child/components.js';
import type { Conditioned } from '../child/conditioned.js';
import { type Asked, addRows, askedOf } from './asked-series.js';
import type { Row } from './conditional-gaussian.js';
import { type PathKnots, pathKnots, readBetween } from './path-knots.js';

/**
 * Deviations are smooth over a year, so that cubics between knots this far apart do (see readBetween).
 */
const SPACING = { days: 150, logAge: 0.16 };
/** Share of a knot's variance that may be left to no direction of its own; it is made good in its size. */
const UNEXPLAINED = 1e-2;

export interface PathSeries {
  readonly id: MeasureId;
  readonly rows: readonly Row[];
}

/** Pairs of draws of neighbouring components; a pair strays from its component's mean by the same to either side. */
export interface PathPart {
  /** The first pair of these. */
  readonly from: number;
  /** Per pair: its component, index into `courses`. */
  readonly component: Int32Array;
  /** Per component: its mean course, series x days in time order, model scale. */
  readonly courses: readonly Float64Array[];
  /** How each pair strays: pairs x directions times directions x (series x days in time order). */
  readonly deviation: Product;
}

/** Everything that joint draws are made of, worked out in float64, but for the wide products. */
export interface PathPlan {
  readonly knots: PathKnots;
  readonly parts: readonly PathPart[];
}

/**
 * Joint draws laid out as few wide products. Every component has its own mean course; components of one kind stray about
 * theirs alike, as the likeliest of them does.
 */
export function pathPlan(
  { components, parts, prior }: Conditioned,
  series: readonly PathSeries[],
  days: readonly DayNumber[],
  draws: number,
  seed: number,
): PathPlan {
  const knots = pathKnots(days, series[0]?.rows.map((r) => r.x) ?? [], SPACING);
  const asked = askedOf(parts, series, knots, prior);
  const strands = strandsOf(components);
  const pairs = Math.ceil(draws / 2);
  const normals = evenNormals(pairs, seed);
  const ends = shareOut(strands, pairs);
  const columns = series.length * days.length;
  let first = 0;
  let from = 0;
  const planned = strands.flatMap((strand): PathPart[] => {
    const begin = from;
    const component: number[] = [];
    strand.forEach((_, i) => {
      for (; from < ends[first + i]; from++) component.push(i);
    });
    first += strand.length;
    if (component.length === 0) return [];
    const used = new Set(component);
    const courses = strand.map((w, i) => (used.has(i) ? course(w, asked, knots, columns) : EMPTY));
    const heaviest = strand.reduce((best, w, i) => (used.has(i) && w.weight > best.weight ? w : best), NONE);
    const { rank, factor } = deviations(heaviest, asked, knots, columns);
    const deviation = strays(normals, begin, from, rank, factor, columns);
    // All pairs together have the covariance meant.
    if (begin > 0 || from < pairs) turn(deviation);
    return [{ from: begin, component: Int32Array.from(component), courses, deviation }];
  });
  return { knots, parts: planned };
}

/** What a component expects of each series on each day, in time order: its curve, and what the readings add, read between knots. */
function course(w: Component, asked: readonly Asked[], knots: PathKnots, columns: number): Float64Array {
  const out = new Float64Array(columns);
  for (const { onDays, onKnots, kinds, uses } of asked) {
    const pull = onKnots.pull(w, new Float64Array(kinds * knots.at.length));
    const mean = readBetween(knots, pull, kinds, onDays.expected(w));
    addRows(mean, mean.length / kinds, uses, out, 0);
  }
  return out;
}

/** Directions that all series stray in, on each day: each part of the readings has its own. */
function deviations(w: Component, asked: readonly Asked[], knots: PathKnots, columns: number) {
  let left = WIDTH;
  const own = asked.map(({ onKnots, kinds, uses }) => {
    const { rank, factor } = pivotedFactor(onKnots.covariance(w), kinds * knots.at.length, UNEXPLAINED, left);
    left -= rank;
    const width = kinds * knots.order.length;
    const daily = readBetween(knots, factor, rank * kinds, new Float32Array(rank * width));
    return { rank, daily, width, uses };
  });
  const rank = WIDTH - left;
  const factor = new Float32Array(rank * columns);
  let row = 0;
  for (const { rank: rows, daily, width, uses } of own)
    for (let k = 0; k < rows; k++, row++)
      addRows(daily.subarray(k * width, (k + 1) * width), knots.order.length, uses, factor, row * columns);
  return { rank, factor };
}

/** Fewer directions than this share of the pairs are made to have the covariance meant in these very pairs. */
const EXACT_SHARE = 1 / 6;
const MOST_EXACT = 16;

/** Rows of normals times a factor. */
function strays(
  { normals, sign }: EvenNormals,
  from: number,
  to: number,
  rank: number,
  factor: Float32Array,
  columns: number,
): Product {
  const rows = to - from;
  const a = new Float32Array(rows * rank);
  for (let d = 0; d < rows; d++)
    for (let k = 0; k < rank; k++) a[d * rank + k] = sign[k] * normals[(from + d) * WIDTH + k];
  return { a, b: factor, rows, inner: rank, columns };
}

/**
 * The rows of one part of the draws do not have the unit covariance that all of them have: the factor's first directions
 * are turned so that what is drawn has the covariance meant.
 */
function turn({ a, b: factor, rows, inner: rank, columns }: Product): void {
  const exact = Math.min(rank, MOST_EXACT, Math.floor(rows * EXACT_SHARE));
  const second = new Float64Array(exact * exact);
  for (let d = 0; d < rows; d++)
    for (let i = 0; i < exact; i++)
      for (let j = 0; j <= i; j++) second[i * exact + j] += (a[d * rank + i] * a[d * rank + j]) / rows;
  if (!denseCholesky(second, exact)) return;
  for (let i = exact - 1; i >= 0; i--) {
    const row = i * columns;
    for (let k = i + 1; k < exact; k++) {
      const f = second[k * exact + i];
      for (let c = 0; c < columns; c++) factor[row + c] -= f * factor[k * columns + c];
    }
    for (let c = 0; c < columns; c++) factor[row + c] /= second[i * exact + i];
  }
}

const EMPTY = new Float64Array(0);
const NONE = { weight: -1 } as Component;

/**
 * Components of one sex and submodel, in order of tempo so that neighbours in order are neighbours in kind. One
 * strand in place of early, likely and late ones apart moved the error of the chance from 0.0042 to 0.0045 at P10 and
 * from 0.0041 to 0.0051 at P50 (40 demo children against 40,000 draws).
 */
function strandsOf(components: readonly Component[]): Component[][] {
  return [...groupBy(components, (w) => `${w.submodel.name}/${w.sex}`).values()].map((list) =>
    list.toSorted((a, b) => a.at.tempo - b.at.tempo || a.at.intensity - b.at.intensity),
  );
}

/** Where each component's pairs end, in proportion to weight. */
function shareOut(strands: readonly Component[][], pairs: number): number[] {
  const weights = strands.flatMap((s) => s.map((w) => w.weight));
  const total = weights.reduce((s, w) => s + w, 0);
  let sum = 0;
  return weights.map((w, i) => {
    sum += w;
    return i === weights.length - 1 ? pairs : Math.round((sum / total) * pairs);
  });
}
