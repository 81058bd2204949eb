import type { Device } from '../records/device.js';
import type { MeasureId } from '../records/measure.js';
import type { FamilyRule } from './fit-rule.js';

/**
 * Measures without which this device cannot be judged at all. One that another, already measured, stands in for is not
 * among them: a spinal orthosis is judged by stature until somebody measures sitting height.
 */
export const measuresWanted = (
  rule: FamilyRule,
  device: Device,
  measured: ReadonlySet<MeasureId> = new Set(),
): MeasureId[] =>
  rule.dimensions
    .filter((d) => d.essential && d.footplates.includes(device.footplate))
    .map((d) => d.measure)
    .filter((m) => !rule.dimensions.some((d) => d.standsInFor === m && measured.has(d.measure)));
