import type { GrowthInput } from './contract.js';
import type { GrowthModel } from './growth-model.js';
import type { GridPoint, Member } from './member.js';

/** Log likelihood of a child's maturity markers at a grid point. */
export function markerEvidence(
  _input: GrowthInput,
  _model: GrowthModel,
): (member: Member, at: GridPoint) => number {
  return () => 0;
}
