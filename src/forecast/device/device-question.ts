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
}
