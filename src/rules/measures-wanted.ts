import type { Device } from '../records/device.js';
import type { MeasureId } from '../records/measure.js';
import type { FamilyRule } from './fit-rule.js';

/** Measures without which this device cannot be judged at all. */
export const measuresWanted = (rule: FamilyRule, device: Device): MeasureId[] =>
  rule.dimensions.filter((d) => d.essential && d.footplates.includes(device.footplate)).map((d) => d.measure);
