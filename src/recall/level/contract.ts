/** What levelling takes and gives. Costs are counted in days: one expected day in an outgrown device is one. */
import { z } from 'zod';
import type { IsoDate } from '../../records/dates.js';

/** Casting places of one clinician in one week, on one weekday where the clinic says which. */
export interface CastSession {
  /** Index into `Capacity.weeks`. */
  readonly week: number;
  /** 1 Monday .. 7 Sunday; null: any day of the week. */
  readonly weekday: number | null;
  readonly clinicianId: string;
  readonly slots: number;
}

/** How many jobs of these families the workshop can take in, week by week. */
export interface WorkshopLimit {
  /** Empty: every family. */
  readonly families: readonly string[];
  readonly jobsByWeek: readonly number[];
}

export interface Capacity {
  /** Mondays, ascending. */
  readonly weeks: readonly IsoDate[];
  /** Days from a week's Monday to the last day on which the clinic works: a week is in time when that day is. */
  readonly lastDay: number;
  /** Is most of this week school holiday? */
  readonly schoolHoliday: readonly boolean[];
  readonly sessions: readonly CastSession[];
  readonly workshop: readonly WorkshopLimit[];
}

/** One visit to place: one child's device or devices, or several children of a family together. */
export interface PlanRequest {
  readonly id: string;
  readonly childIds: readonly string[];
  readonly deviceIds: readonly string[];
  readonly action: 'cast' | 'review';
  /** Nothing but the usual review: it waits before a child whose device is in question. */
  readonly routine?: boolean;
  /** Casting slots the visit takes. */
  readonly slots: number;
  /** Jobs it sends to the workshop, by family. */
  readonly jobs: readonly { readonly family: string; readonly count: number }[];
  readonly worthIt: IsoDate | null;
  readonly latestSafe: IsoDate;
  readonly insensateSkin: boolean;
  /** Expected days outgrown, and days of useful life thrown away, if cast in week w; one more entry for 'after the last week'. */
  readonly outgrownDays: readonly number[];
  readonly wastedDays: readonly number[];
  /** Empty: any clinician; empty: any day. */
  readonly clinicianIds: readonly string[];
  readonly transportDays: readonly number[];
  readonly prefersHolidays: boolean;
  /** Visits with the same text may be made one: a child's own id or a family's. */
  readonly togetherKeys: readonly string[];
  /** Week (Monday) of an appointment already made; it stays. */
  readonly bookedWeek: IsoDate | null;
  /** Week this visit had in the plan before; moving it costs. */
  readonly previousWeek: IsoDate | null;
  /** Does the family know of that week? Moving it costs more then. */
  readonly previousWeekTold: boolean;
  /** Weeks (Mondays) that are not possible: declined, not brought, closed. */
  readonly notInWeeks: readonly IsoDate[];
  /** The requests this one visit was made of; empty when it stands alone. */
  readonly parts: readonly PlanRequest[];
}

/** What is weighed against what. All defaults are common practice without a source: a clinic's own choice. */
export const levellingSettings = z.object({
  /** Expected day outgrown of a child with insensate skin, against 1 for another. */
  insensateWeight: z.number().min(1).default(3),
  /** One day of a device's useful life thrown away by casting early. */
  wastedDayCost: z.number().min(0).default(0.1),
  /** Each week after the latest safe date, beside the days outgrown it brings (insensate weight applies). */
  lateWeekCost: z.number().min(0).default(10),
  /** The same where nothing but the usual review is due. */
  lateReviewWeekCost: z.number().min(0).default(3),
  /** What one visit less is worth. */
  visitCost: z.number().min(0).default(10),
  /** A week outside school holidays for a family that asked for them. */
  holidayCost: z.number().min(0).default(5),
  /** Moving a visit from the week an earlier plan gave it: one the family was told, and one only the list knows. */
  moveCost: z.number().min(0).default(8),
  moveUntoldCost: z.number().min(0).default(1),
  /**
   * A casting slot that does not exist: dearer than any wait, so that only an appointment already made takes one and
   * everybody else goes to the nearest week with a place.
   */
  overtimeSlotCost: z.number().min(0).default(2000),
  /** A job over what the workshop can take: it waits there. */
  overtimeJobCost: z.number().min(0).default(40),
  /** Relative gap to the best possible plan at which the search may stop. */
  mipGap: z.number().min(0).max(0.1).default(1e-3),
});
export type LevellingSettings = z.infer<typeof levellingSettings>;
export type LevellingSettingsInput = z.input<typeof levellingSettings>;

export interface PlannedVisit {
  readonly requestId: string;
  readonly childIds: readonly string[];
  readonly deviceIds: readonly string[];
  readonly action: PlanRequest['action'];
  /** Monday, or null: after the last planned week. */
  readonly week: IsoDate | null;
  readonly clinicianId: string | null;
  readonly weekday: number | null;
  /** Needs a slot over the limit. */
  readonly overtime: boolean;
  readonly insideWindow: boolean;
  readonly cost: number;
  /** Why this week, in words. */
  readonly why: string;
}

export interface WeekLoad {
  readonly week: IsoDate;
  readonly slots: number;
  readonly used: number;
  readonly overtime: number;
  readonly workshop: readonly {
    readonly families: readonly string[];
    readonly limit: number;
    readonly used: number;
    readonly over: number;
  }[];
}

export interface HarmedVisit {
  readonly requestId: string;
  readonly childIds: readonly string[];
  readonly insensateSkin: boolean;
  readonly week: IsoDate | null;
  readonly latestSafe: IsoDate;
  /** Expected days outgrown more than if it had its own best week. */
  readonly extraOutgrownDays: number;
  readonly text: string;
}

export interface Relief {
  readonly kind: 'slot' | 'workshop';
  readonly week: IsoDate;
  readonly families: readonly string[];
  readonly clinicianId: string | null;
  /** Weighted days spared by one more. */
  readonly value: number;
  readonly text: string;
}

export interface Plan {
  readonly visits: readonly PlannedVisit[];
  readonly weeks: readonly WeekLoad[];
  readonly harmed: readonly HarmedVisit[];
  /** Cheapest relief first: what one more slot or job would buy. */
  readonly relief: readonly Relief[];
  /** Weighted days in all, and the least that any plan could have. */
  readonly cost: number;
  readonly lowerBound: number;
  /** (cost - lowerBound) / max(1, cost): 0 is proved best. */
  readonly gap: number;
  readonly columns: number;
  readonly rounds: number;
}
