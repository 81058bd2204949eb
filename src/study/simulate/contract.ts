/**
 * A caseload lived through under a recall policy. The world has children whose true sizes are known on every day, each
 * with one device; what ends it, eases it or is renewed on it is what its family's own rule says, with a limit of its own
 * a little off the rule in every dimension. What a clinic knows is the record of the child: readings with their error,
 * the fit as a look shows it, casts, adjustments, new parts. The forecasting clinic hands this record to the product:
 * `forecast/` assesses, `recall/decide/` says what is to be done, `recall/level/` in which week, and it is done. The
 * fixed reviews see the same rooms with the same error and go by plain rules of the trade: ease what is tight, order the
 * part, cast when a share of the allowance is used. Each policy looks at a new device within four weeks. A day past a
 * limit that nothing answers counts in full, one that only waits for an adjustment or a part counts half, each as much
 * as the device and the skin ask for (`harmADay`); no policy sees the truth, and none sees another's readings.
 */
import type { RecallAssessment } from '../../recall/decide/plan-child.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { DayNumber, IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { Series } from '../../records/measure.js';
import type { Child } from '../../records/records.js';
import type { FamilyRule } from '../../rules/fit-rule.js';

export interface SimulatedChild {
  readonly child: Child;
  readonly rule: FamilyRule;
  readonly side: Device['side'];
  /** True size on any day, mm. Only the world reads it; policies see readings. */
  readonly trueSize: (series: Series, day: DayNumber) => number;
}

/** What the product says of a record on a day, from the record alone. */
export type SimulationAssessor = (record: ChildRecord, today: IsoDate) => RecallAssessment;

/** A standard normal error that depends on the child, the thing read and the day alone: the same under every policy. */
export type SimulationError = (childId: string, what: string, day: DayNumber) => number;

export type RecallPolicy =
  /** Seen every so many months; cast when outgrown or when the look shows that a share of the allowance is used. */
  | { readonly kind: 'fixed'; readonly months: number; readonly castAheadShare: number }
  /** Seen when the forecast says so, at the latest at the usual review; without an accepted chance the shipped one. */
  | { readonly kind: 'forecast'; readonly levelled: boolean; readonly acceptedChance?: number };

export interface World {
  readonly start: IsoDate;
  readonly years: number;
  readonly slotsPerWeek: number;
  readonly jobsPerWeek: number;
  /** Share of appointments to which the child is not brought. */
  readonly missedShare: number;
  readonly seed: number;
}

export interface ChildOutcome {
  readonly childId: string;
  readonly years: number;
  /** Past a limit that no adjustment or part answers any more. */
  readonly daysOutgrown: number;
  /** Past a limit that an adjustment or a part would have answered. */
  readonly daysWaiting: number;
  /** Both, each day as much as it matters. */
  readonly weightedDays: number;
  /** Days that devices would still have fitted on the day the next was given: wear thrown away. */
  readonly thrownAwayDays: number;
  readonly casts: number;
  readonly adjustments: number;
  readonly parts: number;
  readonly visits: number;
  readonly missed: number;
}

export interface PolicyOutcome {
  readonly policy: RecallPolicy;
  readonly children: readonly ChildOutcome[];
  /** Did a week want more visits than there are slots? */
  readonly overtimeWeeks: readonly boolean[];
}
