/** What the recall room takes and gives. It reads forecasts as probability over dates and never asks how they were made. */

import type { DeviceForecast } from '../forecast/contract.js';
import type { IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import type { MeasureId, Side } from '../records/measure.js';

export type { TurnaroundEstimate } from '../turnaround/contract.js';

/** Everything a device can ask of the clinic, in the order in which it is looked for; the first that holds is the device's. */
export const actionIds = [
  'see-now',
  'repair',
  'measure',
  'adjust',
  'renew-part',
  'cast',
  'check',
  'review',
  'none',
] as const;
export type Action = (typeof actionIds)[number];
/** What is rung about today, outside all planning of weeks. */
export const isRungToday = (action: Action): boolean => action === 'see-now' || action === 'repair';

/** Why: a code and the figures in it. The sentence is made in words/ and nowhere else. */
export const reasonCodes = [
  'red-flag',
  'broken',
  'lost',
  'never-measured',
  'readings-too-old',
  'no-reading-near-cast',
  'slip-unanswered',
  'growth-stopped',
  'growth-sprang',
  'no-rule',
  'adjustment-due',
  'part-due',
  'judged-outgrown',
  'judged-tight',
  'beyond-use',
  'cast-late',
  'cast-due',
  'usual-life-over',
  'not-funded-yet',
  'review-due',
  'wear-review',
  'being-made-late',
  'never-fitted',
  'replaced',
  'readings-say-less',
  'fit-changed',
  'hip-angle-off',
  'amount-unknown',
  'noted',
  'being-made',
  'fits-for-now',
  'not-in-use',
  'not-planned',
] as const;
export type ReasonCode = (typeof reasonCodes)[number];
/** The next one is in the workshop: there is nothing to cast. */
export const isBeingMade = (code: ReasonCode | undefined): boolean =>
  code === 'being-made' || code === 'being-made-late';
export interface Reason {
  readonly code: ReasonCode;
  /** Named figures: dates as YYYY-MM-DD, lengths in mm, spans in days, a chance in percent, ids of measures, parts and flags. */
  readonly numbers: Readonly<Record<string, number | string>>;
  /** The sentence to read out, once words/ has made it. */
  readonly text?: string;
}

/** What decides at the bench: 'cast today if the room at the toes is 4 mm or less; else not before March'. */
export interface CheckFigure {
  readonly measure: MeasureId;
  readonly side: Side;
  readonly castIfRoomAtMostMm: number;
  readonly elseNotBefore: IsoDate;
}

/** A strap, flare, trim or bar that answers a limit; after it the device goes on. */
export interface AdjustStep {
  readonly what: NonNullable<DeviceEvent['adjustment']>;
  readonly measure: MeasureId;
  readonly side: Side;
  readonly mm: number;
  /** Holes of the bar, where it has a spacing. */
  readonly steps: number | null;
  readonly by: IsoDate;
}

/** Shown before anything else of a row. */
export type Alert = 'skin-cannot-warn' | 'latex' | 'palliative';

/** The one answer for a device in use. */
export interface DeviceDecision {
  readonly deviceId: string;
  readonly family: string;
  readonly side: Device['side'];
  readonly action: Action;
  readonly reason: Reason;
  /** Day by which the action is wanted; today for what cannot wait; null for 'none' without a next date. */
  readonly dueBy: IsoDate | null;
  /** Day on which the chance of being beyond use reaches the accepted one, less the turnaround at its 80th percentile. Fixed by data; may be past. */
  readonly castBy: IsoDate | null;
  /** castBy, once it is past and the device probably still serves. */
  readonly tooLateSince: IsoDate | null;
  /** Day the chance reached one half, once it is past, or the day a person said so. */
  readonly beyondUseSince: IsoDate | null;
  readonly daysBeyondUse: number;
  readonly acceptedChance: number;
  /** Chance of being beyond use today, and by the fitting of a device cast today; null where nothing is known. */
  readonly chanceToday: number | null;
  readonly chanceByEarliestFitting: number | null;
  readonly checkFigure: CheckFigure | null;
  readonly adjust: AdjustStep | null;
  /** The part to be renewed, by its id in the family's rule. */
  readonly part: string | null;
  readonly reviewBy: IsoDate;
  /** 7 h x chance of being beyond use by the earliest fitting. */
  readonly harmPerWeek: number;
  /** First day on which the payer pays for the next one, where that is still ahead. */
  readonly fundedFrom: IsoDate | null;
  readonly alerts: readonly Alert[];
  readonly forecast: DeviceForecast | null;
}
/** The day to cast by, while there is something to cast. */
export const castByOf = (d: Pick<DeviceDecision, 'reason' | 'castBy'>): IsoDate | null =>
  isBeingMade(d.reason.code) ? null : d.castBy;

/** One visit of one child for every device that wants one; its action is the first of its devices'. */
export interface Visit
  extends Pick<
    DeviceDecision,
    | 'action'
    | 'reason'
    | 'dueBy'
    | 'castBy'
    | 'tooLateSince'
    | 'beyondUseSince'
    | 'daysBeyondUse'
    | 'reviewBy'
    | 'harmPerWeek'
    | 'alerts'
  > {
  readonly childId: string;
  /** Devices this visit is for. */
  readonly deviceIds: readonly string[];
  readonly devices: readonly DeviceDecision[];
  /** The child's other devices in use. */
  readonly otherDevices: readonly DeviceDecision[];
  /** Something due has passed: cast by, review by, or the day a device went beyond use. */
  readonly late: boolean;
  readonly lastSeen: IsoDate | null;
  readonly siblingGroup: string | null;
}

/** How the work with a family stands. */
export const workStates = [
  'to-call',
  'called',
  'left-message',
  'booked',
  'declined',
  'did-not-come',
  'moved-away',
  'done',
] as const;
export type WorkState = (typeof workStates)[number];

/** A visit on the list, with what a levelled plan adds. */
export interface RecallEntry extends Visit {
  /** Monday of the week the levelled plan gives; absent when the list was not levelled or the visit is after the planned weeks. */
  readonly plannedWeek?: IsoDate;
  /** Why that week, in words. */
  readonly weekReason?: string;
  /** Who sees the child then, and on which weekday (1 Monday .. 7 Sunday), where the clinic's capacity tells them apart. */
  readonly plannedClinician?: string;
  readonly plannedWeekday?: number;
  /** Said where a missing place makes the visit later than is safe: what comes of it. */
  readonly tooLate?: string;
  /** Weeks of this child that came to nothing in the last half year. */
  readonly passedWeeks?: readonly PassedWeek[];
}

/** A week (Monday) planned for a child that came to nothing. */
export interface PassedWeek {
  readonly week: IsoDate;
  readonly why: 'declined' | 'did-not-come' | 'clinic-cancelled' | 'nothing-recorded';
}

/** A replacement already being made: no second recall, but its lateness shows. */
export interface ReplacementInProgress {
  readonly childId: string;
  readonly deviceId: string;
  readonly replacementDeviceId: string;
  /** Day it was cast. */
  readonly castOn: IsoDate;
  /** Null where it has been longer with the workshop than any job was: it must be asked for. */
  readonly expectedFitting: IsoDate | null;
  /** Chance that the worn device is beyond use by the expected fitting; null without a forecast. */
  readonly riskUntilFitted: number | null;
  readonly late: boolean;
}

export interface RecallList {
  readonly today: IsoDate;
  /** Last day looked ahead to: five weeks on, or the last day of the month that was chosen. */
  readonly until: IsoDate;
  /** 'YYYY-MM' where a month was chosen. */
  readonly month: string | null;
  /** Every visit that is wanted by then, in working order; nobody whom no forecast covers is left out. */
  readonly entries: readonly RecallEntry[];
  /** The rest of the children with a device in use, with their next dates. */
  readonly notDue: readonly RecallEntry[];
  readonly inProgress: readonly ReplacementInProgress[];
  /** Children whose record the sums cannot take: on the list to be looked at, and counted where the list is shown. */
  readonly notPlanned: readonly string[];
  /** What the levelled plan says of the whole list; absent when it was not levelled. */
  readonly levelling?: RecallLevelling;
}

/** The clinic's weeks under the levelled plan. */
export interface RecallLevelling {
  /** Casting slots there are, used, and needed beyond them. */
  readonly weeks: readonly {
    readonly week: IsoDate;
    readonly slots: number;
    readonly used: number;
    readonly overtime: number;
    /** Workshop limits (of these families; empty: all) that the casts of this week go beyond. */
    readonly workshop: readonly {
      readonly families: readonly string[];
      readonly limit: number;
      readonly jobs: number;
    }[];
  }[];
  /** Who comes too late because a place is missing, most harm first. */
  readonly harmed: readonly {
    readonly childIds: readonly string[];
    readonly week: IsoDate | null;
    readonly castBy: IsoDate;
    readonly text: string;
  }[];
  /** What one more slot would buy, most first. */
  readonly relief: readonly { readonly week: IsoDate; readonly text: string }[];
  /** Visits spared by doing several things in one. */
  readonly visitsSaved: number;
  /** Relative distance to the best plan there could be. */
  readonly gap: number;
  /** Said where the weeks could not be planned: the list stands without them. */
  readonly notLevelled?: string;
}
