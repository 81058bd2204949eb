/** What was worked out of a child, kept. */

import type { DataSuggestion, DeviceForecast, Flag } from '../../forecast/contract.js';
import type { KeptForecast } from '../../forecast/device/held-against-verdicts.js';
import type { LastDay } from '../../forecast/for-days.js';
import type { IsoDate } from '../../records/dates.js';

/** What is derived for one child, with what it was derived from. Thrown away and computed again at will. */
export interface StoredAssessment {
  readonly childId: string;
  readonly today: IsoDate;
  readonly forecasts: readonly DeviceForecast[];
  readonly flags: readonly Flag[];
  readonly suggestions: readonly DataSuggestion[];
  /** Where it speaks for some days more: how it reads on the last of them. */
  readonly lastDay?: LastDay;
  /** The version of this program that made it: a later one may say otherwise. */
  readonly program?: string;
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
