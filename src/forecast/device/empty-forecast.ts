import type { ChildPosterior } from '../../growth/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { DeviceForecast } from '../contract.js';

/** A forecast that says nothing yet: what every outcome starts from. */
export function emptyForecast(
  record: ChildRecord,
  device: { readonly id: string; readonly family: string },
  today: IsoDate,
  seed: number,
  posterior: ChildPosterior | null,
): Omit<DeviceForecast, 'outcome' | 'explanation'> {
  return {
    deviceId: device.id,
    childId: record.child.id,
    family: device.family,
    today,
    p10: null,
    p50: null,
    p90: null,
    dates: [],
    probabilityOutgrown: [],
    drivers: [],
    room: [],
    probabilityOutgrownNow: 0,
    modelName: posterior?.modelName ?? '',
    modelVersion: posterior?.modelVersion ?? '',
    seed,
  };
}
