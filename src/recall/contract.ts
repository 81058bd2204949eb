/** What the recall room takes and gives. It reads forecasts as probability over dates and never asks how they were made. */
import type { DeviceForecast } from '../forecast/contract.js';
import type { IsoDate } from '../measurements/dates.js';

/** Days from cast to fitting as a distribution: quantiles at 10, 50, 80, 90 %. */
export interface TurnaroundEstimate {
  readonly family: string;
  readonly p10Days: number;
  readonly p50Days: number;
  readonly p80Days: number;
  readonly p90Days: number;
  /** Equally likely values for convolution with a forecast, ascending, whole days. */
  readonly samplesDays: readonly number[];
  readonly basis: 'default' | 'clinic-history';
  readonly jobsUsed: number;
}

export interface CastDate {
  readonly deviceId: string;
  /** Last date at which casting keeps P(outgrown before the replacement is fitted) <= tolerance; null without a forecast. */
  readonly latestSafe: IsoDate | null;
  /** First date at which a cast is not plainly wasteful. */
  readonly worthIt: IsoDate | null;
  readonly riskTolerance: number;
  /** P(outgrown before fitting) if cast today. */
  readonly riskIfCastToday: number;
  readonly overdue: boolean;
}

export type RecallAction = 'cast' | 'measure' | 'review-wear' | 'urgent-contact' | 'adjust';
export type WorkState = 'to-call' | 'called' | 'booked' | 'declined' | 'did-not-come' | 'done';

export interface RecallEntry {
  readonly childId: string;
  readonly deviceIds: readonly string[];
  readonly action: RecallAction;
  readonly latestSafe: IsoDate | null;
  readonly worthIt: IsoDate | null;
  readonly overdue: boolean;
  /** One plain sentence a scheduler can read to a parent. */
  readonly reason: string;
  readonly insensateSkin: boolean;
  readonly forecasts: readonly DeviceForecast[];
}
