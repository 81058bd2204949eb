import type { Known } from '../growth-record.js';

/** What a clinic knows when the child is there. */
export interface VisitState {
  /** Every reading so far, today's the last. */
  readonly known: Known;
  /** Age at which the device worn was cast; today's age where one is being cast for the first time. */
  readonly castAgeYears: number;
  /** Seen at the visit: growth since the cast exceeds the allowance, so a new device must be cast. */
  readonly outgrown: boolean;
  readonly allowanceMm: number;
  /** Days from cast to fitting. */
  readonly turnaroundDays: number;
}

export interface VisitDecision {
  /** Cast a new device today; obeyed in any case when the old one is outgrown. */
  readonly recast: boolean;
  readonly nextVisitDays: number;
}

/** When to see the child again, and whether to cast ahead of time. */
export interface RecallPolicy {
  readonly policy: string;
  readonly setting: string;
  decide(state: VisitState): VisitDecision;
}
