import type { ChildPosterior } from '../../growth/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { DataSuggestion, DeviceForecast } from '../contract.js';
import type { Futures } from '../futures.js';
import type { DevicePlan } from './device-plan.js';
import type { JudgedDraws } from './judged-draws.js';

export interface DeviceAnswer {
  readonly forecast: DeviceForecast;
  readonly surprise: JudgedDraws['surprise'];
}

export interface DeviceQuestion {
  readonly record: ChildRecord;
  readonly plan: DevicePlan;
  readonly posterior: ChildPosterior;
  readonly futures: Futures;
  readonly suggestions: readonly DataSuggestion[];
  readonly today: IsoDate;
  readonly seed: number;
  readonly once: Once;
}

/** Works something out, or gives it as it was worked out under that name for another day of the same record. */
export type Once = <T>(name: string, work: () => T) => T;
export const everyTime: Once = (_name, work) => work();
/** For a record that is asked about on several days. */
export function onceByName(): Once {
  const known = new Map<string, unknown>();
  return <T>(name: string, work: () => T): T => {
    if (!known.has(name)) known.set(name, work());
    return known.get(name) as T;
  };
}
