/** What the recall room takes and gives. It reads forecasts as probability over dates and never asks how they were made. */

import type { DeviceForecast } from '../forecast/contract.js';
import type { IsoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';

export type { TurnaroundEstimate } from '../turnaround/contract.js';

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

/** One device of a child on the list, with its own dates. */
export interface DeviceDue {
  readonly deviceId: string;
  readonly family: string;
  readonly side: Device['side'];
  readonly castDate: CastDate | null;
  readonly forecast: DeviceForecast | null;
  /** Wear review date where growth does not decide. */
  readonly wearReview: IsoDate | null;
}

export interface RecallEntry {
  readonly childId: string;
  /** Every device this visit is for; a second one joins when its own date is near enough. */
  readonly deviceIds: readonly string[];
  readonly action: RecallAction;
  readonly latestSafe: IsoDate | null;
  readonly worthIt: IsoDate | null;
  readonly overdue: boolean;
  /** One plain sentence a scheduler can read to a parent. */
  readonly reason: string;
  readonly insensateSkin: boolean;
  readonly forecasts: readonly DeviceForecast[];
  readonly devices: readonly DeviceDue[];
  /** The child's other devices in use: not for this visit, but in the planning. */
  readonly otherDevices: readonly DeviceDue[];
  /** Date of the usual review, whatever the forecast says: a forecast never replaces one. */
  readonly reviewDue: IsoDate | null;
  /** Last day anything was measured, judged or fitted; null when never. */
  readonly lastSeen: IsoDate | null;
  readonly siblingGroup: string | null;
  /** Where a measurement before the cast would move its date enough to be worth it; absent where the odds are plain. */
  readonly measureFirst?: 'home' | 'clinic';
  /** Monday of the week the levelled plan gives; absent when the list was not levelled or the visit is after the planned weeks. */
  readonly plannedWeek?: IsoDate;
  /** Why that week, in words. */
  readonly weekReason?: string;
  /** Who sees the child then, and on which weekday (1 Monday .. 7 Sunday), where the clinic's capacity tells them apart. */
  readonly plannedClinician?: string;
  readonly plannedWeekday?: number;
  /** Said where a missing place makes the visit later than is safe: what comes of it. */
  readonly tooLate?: string;
  /** Week (Monday) the plan before gave, where this one gives another. */
  readonly movedFrom?: IsoDate;
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
  readonly expectedFitting: IsoDate | null;
  /** Chance that the worn device is outgrown by the expected fitting; null without a forecast. */
  readonly riskUntilFitted: number | null;
  readonly late: boolean;
  readonly reason: string;
}

export interface RecallList {
  /** 'YYYY-MM'. */
  readonly month: string;
  readonly today: IsoDate;
  /** Due on or before the month's last day, carried-over ones included; urgent first, then overdue, then by latest safe date. */
  readonly entries: readonly RecallEntry[];
  /** Not due this month, but casting this month would already be worth it: for filling slots. */
  readonly open: readonly RecallEntry[];
  /** Children in use of a device whom no forecast covers: nobody hides here. */
  readonly cannotForecast: readonly RecallEntry[];
  readonly inProgress: readonly ReplacementInProgress[];
  /** The rest of the devices in use, with their dates. */
  readonly notDue: readonly RecallEntry[];
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
    readonly latestSafe: IsoDate;
    readonly text: string;
  }[];
  /** What one more slot would buy, most first. */
  readonly relief: readonly { readonly week: IsoDate; readonly text: string }[];
  /** Visits spared by doing several things in one. */
  readonly visitsSaved: number;
  /** Relative distance to the best plan there could be. */
  readonly gap: number;
}
