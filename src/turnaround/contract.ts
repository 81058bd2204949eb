/** Days from cast to fitting as a distribution. */
export interface TurnaroundEstimate {
  readonly family: string;
  readonly p50Days: number;
  readonly p80Days: number;
  /** Equally likely values for convolution with a forecast, ascending, whole days. */
  readonly samplesDays: readonly number[];
  readonly basis: 'default' | 'clinic-history';
  readonly jobsUsed: number;
}
