import { type Points, points, type SideCode } from '../population/points.js';
import type { Submodel } from '../population/submodel.js';

/** Log-age at which a measure (index into the model's list) is looked up for a child of log-age x. */
export type Clock = (measure: number, x: number) => number;

/**
 * The same way of growing on another clock: one that stands still from some day on, pauses or runs faster.
 * All of a submodel follows its points' ages, mean and covariance alike, so that moving the points is enough.
 */
export function clockedSubmodel(base: Submodel, kind: string, clock: Clock): Submodel {
  const known = new WeakMap<Points, Points>();
  const moved = (p: Points): Points => {
    const before = known.get(p);
    if (before) return before;
    const after = points(
      Array.from({ length: p.n }, (_, i) => ({
        measure: p.measure[i],
        side: p.side[i] as SideCode,
        x: clock(p.measure[i], p.x[i]),
      })),
    );
    known.set(p, after);
    known.set(after, after);
    return after;
  };
  return {
    ...base,
    name: kind === '' ? base.name : `${base.name}, ${kind}`,
    place: (p, prior, at, again) => base.place(moved(p), prior, at, again),
    fixedCovariance: (a, b, prior) => base.fixedCovariance(moved(a), moved(b), prior),
  };
}
