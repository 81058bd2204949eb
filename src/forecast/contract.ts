/** What the forecast room hands on. `survival` is the whole answer; the dates are read off it. */
import type { IsoDate } from '../records/dates.js';
import type { AdjustmentKind, DeviceEvent } from '../records/device.js';
import type { MeasureId, Series } from '../records/measure.js';
import type { FindingKind } from './flags/finding.js';

export type ForecastOutcome =
  | 'forecast'
  | 'already-outgrown'
  | 'beyond-horizon' // less than 10 % chance of being outgrown inside the horizon
  | 'full-grown' // no measurable growth left in any limiting dimension
  | 'adult'
  | 'palliative'
  | 'too-few-measurements'
  | 'blocked' // a red flag halts the growth forecast (for example head circumference crossing centiles)
  | 'no-rule' // no fit rule for the device's family, so nothing to hold its size against
  | 'not-computed' // a value in the record that the sums cannot take
  | 'not-in-use';

/** What ought to be known and is not: somebody must measure or look. */
const UNKNOWN: readonly ForecastOutcome[] = ['too-few-measurements', 'blocked', 'not-computed'];
export const isUnknown = ({ outcome }: Pick<DeviceForecast, 'outcome'>): boolean => UNKNOWN.includes(outcome);

/** Without a rule it is reviewed as usual, and what is not in use is not asked about: no date either, and nothing amiss. */
const SAYS_NOTHING: readonly ForecastOutcome[] = [...UNKNOWN, 'no-rule', 'not-in-use'];
/** Nothing is known of the fit by growth: which is not safe. */
export const saysNothing = ({ outcome }: Pick<DeviceForecast, 'outcome'>): boolean =>
  SAYS_NOTHING.includes(outcome);

export interface DeviceForecast {
  readonly deviceId: string;
  readonly childId: string;
  readonly family: string;
  readonly today: IsoDate;
  readonly outcome: ForecastOutcome;
  /** One plain sentence: why this outcome, what happens instead. */
  readonly explanation: string;
  /**
   * Dates by which the chance of being outgrown reaches 10, 50, 90 %; null where not inside the horizon. They may lie
   * before today; of a device already outgrown only past dates are given: no future date is invented for it.
   */
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
  /**
   * Chance of being beyond use (a limit passed and no adjustment or part left for it) on or before dates[i], given all
   * that is known today; weekly (cranial: daily) from the cast on, past days included. The days depend on the record
   * alone, never on today. Empty without a forecast.
   */
  readonly dates: readonly IsoDate[];
  readonly probabilityOutgrown: readonly number[];
  /** Share of futures in which this dimension is the first to fail, largest first. */
  readonly drivers: readonly { readonly series: Series; readonly share: number }[];
  /** Room per limiting dimension. */
  readonly room: readonly DimensionRoom[];
  /** Chance that it is outgrown now, given everything measured and judged. */
  readonly probabilityOutgrownNow: number;
  /** Straps, flares, reliefs and bars with something left: when they are wanted, soonest first; each resets one dimension and no other. */
  readonly adjustments?: readonly AdjustmentDue[];
  /** Parts that answer a limit while the rest of the device goes on. */
  readonly parts?: readonly PartDue[];
  /** What must be read before the answer can be relied on; null where nothing is missing. */
  readonly readingNeeded?: ReadingNeeded | null;
  /** By dimension: days from P10 to P90 now, and on the average after one more reading of it today; most worth first. */
  readonly readingWorth?: readonly {
    readonly series: Series;
    readonly nowDays: number;
    readonly thenDays: number;
  }[];
  /** The last word of a reviewer on the device now worn. */
  readonly lastVerdict?: Pick<DeviceEvent, 'date' | 'verdict' | 'measure' | 'side'> | null;
  /** Usual life by wear from the family's rule, counted from fitting. */
  readonly usualLifeEnds?: { readonly from: IsoDate; readonly to: IsoDate } | null;
  /** A newer cast of this device has not been delivered yet. */
  readonly replacementInProgress?: boolean;
  readonly modelName: string;
  readonly modelVersion: string;
  readonly seed: number;
}

/** Chances at which `DueDays` gives days: 5, 10 .. 95 %. */
export const dueChances: readonly number[] = Array.from({ length: 19 }, (_, i) => (i + 1) / 20);
/** Day on which each of `dueChances` is reached; null where it is not inside the horizon. */
export type DueDays = readonly (IsoDate | null)[];
/** Day on which one of `dueChances` is reached. */
export const reachedOn = (days: DueDays, chance: number): IsoDate | null =>
  days[dueChances.indexOf(chance)] ?? null;

export interface AdjustmentDue {
  readonly series: Series;
  readonly kind: AdjustmentKind;
  /** Hole spacing, mm; null where it is set freely. */
  readonly stepMm: number | null;
  readonly dueNow: boolean;
  /** Dates by which the chance of needing it reaches 10 and 50 %. */
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly days: DueDays;
  /** What this way of adjusting has left, mm. */
  readonly extensionLeftMm: number;
}

export interface PartDue {
  /** Id in the family's rule. */
  readonly part: string;
  readonly series: Series;
  readonly days: DueDays;
}

/** Why the answer cannot be relied on before something is measured. */
export interface ReadingNeeded {
  readonly why:
    | 'never-measured'
    | 'readings-too-old'
    | 'no-reading-near-cast'
    | 'slip-unanswered'
    | 'growth-stopped'
    | 'growth-sprang';
  readonly measure: MeasureId;
  readonly side: Series['side'] | null;
  /** Day of the reading in question; null without one. */
  readonly date: IsoDate | null;
  /** What kind of slip. */
  readonly slip?: DataSuggestion['kind'];
}

export interface DimensionRoom {
  readonly series: Series;
  /** Growth since cast the device takes before this dimension fails, adjustments made and still to be had included, mm. */
  readonly allowanceMm: number;
  /** The part of `allowanceMm` that needs adjusting first, mm. */
  readonly extensionLeftMm?: number;
  /** Expected growth since cast, mm, with SD. */
  readonly grownMm: number;
  readonly grownSdMm: number;
  /** allowance - grown, mm; 10 % and 90 % quantiles. */
  readonly roomMm: number;
  readonly roomLowMm: number;
  readonly roomHighMm: number;
  /** Expected growth in the half-year after the last reading, as mm a year, with SD; whatever today is. */
  readonly paceMmAYear?: number;
  readonly paceSdMmAYear?: number;
  /** Size at which it fails, mm: expected size at cast + allowance. */
  readonly limitMm: number;
}

/** Something seen in the record that growth alone does not explain. Never a diagnosis. */
export interface Flag {
  readonly id: string;
  readonly childId: string;
  readonly severity: 'act-now' | 'check' | 'note';
  readonly title: string;
  readonly seen: string;
  readonly caution: string;
  readonly askWhom: string;
  readonly series: Series | null;
  readonly deviceId: string | null;
  /** What a skin check or note found, and when, where the flag comes of one. */
  readonly finding?: { readonly kind: FindingKind; readonly date: IsoDate };
  /** Which way the size of its series went against the reference. */
  readonly zShift?: 'falling' | 'rising';
}

/** A likely slip in the data, with the correction a person may accept. Nothing is changed silently. */
export interface DataSuggestion {
  readonly id: string;
  readonly childId: string;
  readonly kind:
    | 'unit-slip'
    | 'swapped-sides'
    | 'digit-slip'
    | 'shrinking-bone'
    | 'jumping-bone'
    | 'impossible-pair'
    | 'limit-below-size'
    | 'duplicate';
  readonly measurementIds: readonly string[];
  readonly deviceId: string | null;
  readonly seen: string;
  /** New values per measurement id, or null where a person must measure again. */
  readonly corrections: readonly {
    readonly measurementId: string;
    readonly value?: number;
    readonly side?: 'left' | 'right';
    /** A row entered twice: leave it out of every calculation (the row itself stays). */
    readonly exclude?: true;
  }[];
  readonly action: string;
}
