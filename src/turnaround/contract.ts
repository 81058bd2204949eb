/** What the turnaround room hands on. */
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
