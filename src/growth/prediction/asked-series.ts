import { type Parts, splitOf } from '../child/parts.js';
import { sides } from '../population/points.js';
import type { ChildPrior } from '../population/submodel.js';
import { type ConditionalGaussian, conditionalGaussian, type Row } from './conditional-gaussian.js';
import type { PathKnots } from './path-knots.js';

/** Rows of one part of the readings that some series are made of. */
export interface Asked {
  readonly kinds: number;
  readonly onDays: ConditionalGaussian;
  readonly onKnots: ConditionalGaussian;
  /** Which series, which of the kinds each is made of, and how much of it. */
  readonly uses: readonly { readonly series: number; readonly kind: number; readonly share: number }[];
}

export function askedOf(
  parts: Parts,
  series: readonly { readonly rows: readonly Row[] }[],
  knots: PathKnots,
  prior: ChildPrior,
): Asked[] {
  return parts.data.flatMap((_, part): Asked[] => {
    const kinds = new Map<string, Row[]>();
    const uses = series.flatMap(({ rows }, s) => {
      const split = splitOf(parts, rows[0].measure, rows[0].side);
      if (part !== 0 && part !== split.part) return [];
      const side = part === 0 ? split.common : sides.difference;
      const key = `${rows[0].measure}/${side}`;
      if (!kinds.has(key))
        kinds.set(
          key,
          rows.map((r) => ({ ...r, side })),
        );
      return [{ series: s, kind: [...kinds.keys()].indexOf(key), share: part === 0 ? 1 : split.share }];
    });
    if (uses.length === 0) return [];
    const at = (days: readonly number[]) =>
      conditionalGaussian(
        parts,
        part,
        [...kinds.values()].flatMap((rows) => days.map((j) => rows[j])),
        prior,
      );
    return [{ kinds: kinds.size, onDays: at(knots.order), onKnots: at(knots.at), uses }];
  });
}

/** Adds the rows of a part to the series that are made of them. */
export function addRows(
  rows: ArrayLike<number>,
  days: number,
  uses: Asked['uses'],
  out: Float32Array | Float64Array,
  begin: number,
): void {
  for (const { series, kind, share } of uses) {
    const to = begin + series * days;
    for (let j = 0; j < days; j++) out[to + j] += share * rows[kind * days + j];
  }
}
