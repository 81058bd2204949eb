import type { Device } from '../records/device.js';
import type { MeasureId } from '../records/measure.js';
import type { LimitFigure, LimitPlace } from './clinic-limits.js';
import type { FitRules } from './fit-rule.js';

/** Devices in use that the same limits reach. */
export interface DeviceGroup {
  readonly family: string;
  readonly footplate: Device['footplate'];
  /** Measures in which a person stated an allowance or a limit for the device itself. */
  readonly stated: readonly MeasureId[];
  readonly devices: number;
}

const allowances: readonly LimitFigure[] = ['allowanceMm', 'allowanceBehindToesMm'];

/** How many devices in use any of these figures decides about; a device's own stated allowance goes before the family's. */
export function limitReach(
  rules: FitRules,
  groups: readonly DeviceGroup[],
  places: readonly LimitPlace[],
): number {
  return groups
    .filter((group) => places.some((place) => reaches(rules, place, group)))
    .reduce((sum, { devices }) => sum + devices, 0);
}

function reaches(rules: FitRules, place: LimitPlace, { family, footplate, stated }: DeviceGroup): boolean {
  const { measure, figure } = place;
  const dimension = rules.get(family)?.dimensions.find((d) => d.measure === measure);
  if (family !== place.family || !dimension?.footplates.includes(footplate)) return false;
  if (!allowances.includes(figure)) return true;
  const behindToes = footplate === 'behind-toes' && dimension.allowanceBehindToesMm !== null;
  return !stated.includes(measure) && behindToes === (figure === 'allowanceBehindToesMm');
}
