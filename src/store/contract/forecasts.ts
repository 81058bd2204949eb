/** What was worked out of a child, kept. */

import type { DataSuggestion, DeviceForecast, Flag } from '../../forecast/contract.js';
import type { KeptForecast } from '../../forecast/device/held-against-verdicts.js';
import type { IsoDate } from '../../records/dates.js';
import type { Actor } from './actor.js';

/** What is derived for one child, with what it was derived from. Thrown away and computed again at will. */
export interface StoredAssessment {
  readonly childId: string;
  readonly today: IsoDate;
  readonly forecasts: readonly DeviceForecast[];
  readonly flags: readonly Flag[];
  readonly suggestions: readonly DataSuggestion[];
  /** SHA-256 of the child's ground rows and the fit rules of its devices' families. */
  readonly inputsHash: string;
  readonly modelName: string;
  readonly modelVersion: string;
  readonly seed: number;
  readonly computedAt: string;
}

export interface PastForecast extends KeptForecast {
  readonly childId: string;
  readonly family: string;
  readonly inputsHash: string;
  readonly modelVersion: string;
}

/** What forecasts of one day are kept by, so that they can be held against what happened. */
export type MadeForecasts = Pick<
  StoredAssessment,
  'childId' | 'today' | 'forecasts' | 'inputsHash' | 'modelVersion'
>;

export interface ForecastsRepository {
  latestByChild(childId: string, actor: Actor): Promise<readonly DeviceForecast[]>;
  assessment(childId: string): Promise<StoredAssessment | null>;
  /** Of many children at once, by child; who has none is left out. */
  assessments(childIds: readonly string[]): Promise<ReadonlyMap<string, StoredAssessment>>;
  save(assessment: StoredAssessment): Promise<void>;
  /** Forecasts of a day long past, made later from the record as it stood then: kept as history alone. */
  saveLookBack(made: MadeForecasts, madeOn: IsoDate): Promise<void>;
  /** How many active children have an assessment, of how many. */
  coverage(): Promise<{ readonly done: number; readonly total: number }>;
  /** Every past answer of a device, oldest first, without the curve: for forecast against what happened. */
  history(deviceIds?: readonly string[]): Promise<readonly PastForecast[]>;
}
