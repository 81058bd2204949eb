import type { DayNumber } from '../../records/dates.js';
import type { MeasureId } from '../../records/measure.js';
import { evenNormals } from '../../statistics/even-normals.js';
import { groupBy } from '../../statistics/group-by.js';
import { pivotedFactor } from '../../statistics/pivoted-factor.js';
import type { Product } from '../../statistics/tensor/wide-products.js';
import type { ChildPrior } from '../child/child-prior.js';
import { points } from '../child/points.js';
import type { World } from '../child/worlds.js';
import { type Outlook, outlooks } from './outlook.js';
import { type PathKnots, pathKnots } from './path-knots.js';

/** Share of a knot's variance that may be left to no direction of its own; it is made good in its size. */
const UNEXPLAINED = 1e-2;

export interface PathSeries {
  readonly id: MeasureId;
  readonly rows: readonly { measure: number; side: number; x: number }[];
}

/** Draws of neighbouring worlds: coefficients x basis is how each draw strays from its world's mean, at the knots. */
export interface PathPart {
  /** Rows of the result these draws go to. */
  readonly rows: Int32Array;
  /** Per draw: its world, index into `courses`. */
  readonly world: Int32Array;
  /** Per world: its mean course, series x days in time order, model scale. */
  readonly courses: readonly Float64Array[];
  /** draws x directions times directions x (series x knots). */
  readonly bend: Product;
}

/** Everything that joint draws are made of, worked out in float64, but for the wide products. */
export interface PathPlan {
  readonly knots: PathKnots;
  readonly parts: readonly PathPart[];
}

/**
 * Joint draws laid out as few wide products. Every world has its own mean course; worlds of one kind stray about
 * theirs alike, as the likeliest of them does.
 */
export function pathPlan(
  worlds: readonly World[],
  series: readonly PathSeries[],
  days: readonly DayNumber[],
  draws: number,
  seed: number,
  prior: ChildPrior,
): PathPlan {
  const knots = pathKnots(days, series[0]?.rows.map((r) => r.x) ?? []);
  const rows = series.flatMap((s) => knots.at.map((j) => s.rows[j]));
  const dayPoints = points(series.flatMap((s) => knots.order.map((j) => s.rows[j])));
  const view = outlooks(rows, prior);
  const strands = strandsOf(worlds);
  const chance = evenNormals(draws, seed);
  const chosen = choose(
    strands.flatMap((s) => s.map((w) => w.weight)),
    chance.choice,
  );
  let first = 0;
  const parts = strands.flatMap((strand): PathPart[] => {
    const from = first;
    first += strand.length;
    const own: number[] = [];
    for (let i = 0; i < draws; i++) if (chosen[i] >= from && chosen[i] < first) own.push(i);
    if (own.length === 0) return [];
    const world = Int32Array.from(own, (i) => chosen[i] - from);
    const used = new Set(world);
    const looks = strand.map((w, i) => (used.has(i) ? view.of(w) : null));
    const courses = strand.map((w, i) => {
      const look = looks[i];
      return look ? course(w, look, dayPoints, knots, prior) : EMPTY;
    });
    const heaviest = strand.reduce(
      (best, w, i) => (looks[i] && (best < 0 || w.weight > strand[best].weight) ? i : best),
      -1,
    );
    const covariance = view.covariance(strand[heaviest], looks[heaviest] as Outlook);
    const { rank, factor } = pivotedFactor(covariance, rows.length, UNEXPLAINED);
    const a = new Float32Array(own.length * rank);
    own.forEach((draw, d) => {
      chance.write(draw, rank, a, d * rank);
    });
    return [
      {
        rows: Int32Array.from(own),
        world,
        courses,
        bend: { a, b: factor, rows: own.length, inner: rank, columns: rows.length },
      },
    ];
  });
  return { knots, parts };
}

const EMPTY = new Float64Array(0);

/**
 * Worlds of one sex and member in three kinds: those of the likeliest tempo, earlier and later ones. Each kind is in
 * order of tempo, so that neighbours in order are neighbours in kind.
 */
function strandsOf(worlds: readonly World[]): World[][] {
  return [...groupBy(worlds, (w) => `${w.member.name}/${w.sex}`).values()].flatMap((list) => {
    const byTempo = groupBy(list, (w) => w.at.tempo);
    const weight = (ws: readonly World[]) => ws.reduce((s, w) => s + w.weight, 0);
    const [likeliest] = [...byTempo].reduce((a, b) => (weight(b[1]) > weight(a[1]) ? b : a));
    const sorted = list.toSorted((a, b) => a.at.tempo - b.at.tempo || a.at.intensity - b.at.intensity);
    return [...groupBy(sorted, (w) => Math.sign(w.at.tempo - likeliest)).values()];
  });
}

/** Per draw the index of a world, in proportion to weight. */
function choose(weights: readonly number[], choice: Float64Array): Int32Array {
  const total = weights.reduce((s, w) => s + w, 0);
  let sum = 0;
  const upTo = weights.map((w) => (sum += w / total));
  return Int32Array.from(choice, (u) => {
    const i = upTo.findIndex((end) => u < end);
    return i < 0 ? weights.length - 1 : i;
  });
}

/** What a world expects of each series on each day: its curve, and between knots a straight line of what the readings add. */
function course(
  w: World,
  look: Outlook,
  days: ReturnType<typeof points>,
  knots: PathKnots,
  prior: ChildPrior,
): Float64Array {
  const nd = knots.order.length;
  const nk = knots.at.length;
  const out = w.member.place(days, prior, w.at).mean;
  const bend = look.mean.map((m, i) => m - look.expected[i]);
  for (let i = 0; i < out.length; i++) {
    const j = i % nd;
    const k = Math.floor(i / nd) * nk + knots.before[j];
    const f = knots.fraction[j];
    out[i] += f === 0 ? bend[k] : bend[k] * (1 - f) + bend[k + 1] * f;
  }
  return out;
}
