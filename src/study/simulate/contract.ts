/** A caseload lived through under a recall policy: what goes in and what comes out. */
import type { DayNumber, IsoDate } from '../../records/dates.js';

export interface SimulatedChild {
  readonly id: string;
  readonly insensateSkin: boolean;
  readonly allowanceMm: number;
  /** True size that decides, mm. Only the world reads it; policies see readings. */
  readonly trueSize: (day: DayNumber) => number;
  /** Days until the usual review by age and skin, which no forecast replaces; absent for one a year. */
  readonly reviewEveryDays?: (day: DayNumber) => number;
}

/** What was known by a day: the days of the visits so far. The forecaster holds the readings taken on them. */
export interface KnownDevice {
  readonly castDay: DayNumber;
  readonly allowanceMm: number;
  /** Room at the limit read in the device at today's visit, with the error of such a look, mm; null without a visit. */
  readonly roomSeenMm: number | null;
}

/** Chance of being outgrown over dates, from readings of the days given and nothing else. */
export type SimulationForecaster = (
  child: SimulatedChild,
  readingDays: readonly DayNumber[],
  device: KnownDevice,
  today: DayNumber,
) => { readonly dates: readonly IsoDate[]; readonly probabilityOutgrown: readonly number[] };

/** What a look at a device shows on a visit's day whose true room is this; its error is the same under every policy. */
export type SimulationLook = (child: SimulatedChild, day: DayNumber, roomMm: number) => number;

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
  readonly daysOutgrown: number;
  /** The same, each day as much as it matters to this child's skin. */
  readonly weightedDays: number;
  /** Days that devices would still have fitted on the day the next was given: wear thrown away. */
  readonly thrownAwayDays: number;
  readonly casts: number;
  readonly visits: number;
  readonly missed: number;
}

export interface PolicyOutcome {
  readonly policy: RecallPolicy;
  readonly children: readonly ChildOutcome[];
  /** Visits wanted in each week, and whether that is over the slots. */
  readonly visitsByWeek: readonly number[];
  readonly overtimeWeeks: readonly boolean[];
  /** Days from cast to fitting of every job. */
  readonly turnaroundDays: readonly number[];
}
