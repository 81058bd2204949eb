import type { Points } from '../population/points.js';
import type { Submodel } from '../population/submodel.js';
import type { Component } from './trial.js';

/** Components lighter than this share of the heaviest are left out. */
const NEGLIGIBLE = 1e-4;

/** Log-age that decides between pools for a child without readings. */
const UNSEEN = Math.log(5.75);

/** Submodels that have a say at the age last seen. */
export function speaking(submodel: Submodel, at: Points): boolean {
  return submodel.logWeight(lastSeen(at)) >= Math.log(NEGLIGIBLE);
}
const lastSeen = (at: Points) => (at.n ? at.x[at.n - 1] : UNSEEN);

/** The components with their posterior weights, those of no weight left out; see `Submodel.pool`. */
export function weightedComponents(components: readonly Component[], at: Points): Component[] {
  const pools = new Map<string, Component[]>();
  for (const w of components) {
    const pool = pools.get(w.trial.submodel.pool);
    if (pool) pool.push(w);
    else pools.set(w.trial.submodel.pool, [w]);
  }
  const x = lastSeen(at);
  const shares = [...pools.values()].map(([first]) => Math.exp(first.trial.submodel.logWeight(x)));
  const total = shares.reduce((a, b) => a + b, 0);
  return [...pools.values()].flatMap((pool, p) => {
    const top = Math.max(...pool.map((w) => w.log));
    const kept = pool.filter((w) => w.log > top + Math.log(NEGLIGIBLE));
    const sum = kept.reduce((s, w) => s + Math.exp(w.log - top), 0);
    return kept.map((w) => ({ ...w, weight: ((shares[p] / total) * Math.exp(w.log - top)) / sum }));
  });
}
