/** What a clinic decides for itself. */

import type { IsoDate } from '../../records/dates.js';
import type { ClinicLimit, LimitChange, LimitPlace } from '../../rules/clinic-limits.js';
import type { DeviceGroup } from '../../rules/limit-reach.js';
import type { Actor, Expected, Page, PageRequest, Versioned } from './actor.js';

/** What a clinic may set; defaults in default-settings.ts. */
export interface ClinicSettings {
  readonly clinicName: string;
  readonly contact: string;
  /** Chance of being beyond use before the next device is fitted that the clinic accepts for ordinary skin. */
  readonly acceptedChance: number;
  /** How much a day beyond use matters where the skin does not feel, against ordinary skin. */
  readonly harmInsensate: number;
  /** Months before the funder pays for the next device of a side, by family; absent: no rule. */
  readonly eligibleAfterMonths: Readonly<Record<string, number>>;
  /** Slots of the whole clinic, where `clinicians` says nothing. */
  readonly castingSlotsPerWeek: number;
  /** Who casts, how often and when not; empty: nobody is told apart. */
  readonly clinicians: readonly {
    readonly name: string;
    /** Slots on any day of the week, and on named ones (1 Monday .. 7 Sunday). */
    readonly slotsPerWeek: number;
    readonly slotsByWeekday: readonly { readonly weekday: number; readonly slots: number }[];
    readonly away: readonly { readonly from: IsoDate; readonly to: IsoDate }[];
  }[];
  /** Jobs the workshop can take in a week, by device families (empty: all together); none: no limit. */
  readonly workshop: readonly { readonly families: readonly string[]; readonly jobsPerWeek: number }[];
  readonly workshopClosures: readonly { readonly from: IsoDate; readonly to: IsoDate }[];
  readonly holidays: readonly { readonly from: IsoDate; readonly to: IsoDate; readonly name: string }[];
  readonly closures: readonly IsoDate[];
  readonly language: string;
}

/** One change of the clinic's limits; rows saved together share their version. */
export interface LimitChangeRow extends LimitPlace {
  readonly id: string;
  readonly version: number;
  /** Null: back to the shipped figure. */
  readonly mm: number | null;
  /** What stood before, the clinic's or the shipped figure, mm. */
  readonly beforeMm: number;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

export interface SignOff {
  readonly subject: string;
  /** A digest of what was signed: another content is unsigned again. */
  readonly content: string;
  /** As the practitioner signs, with the profession and registration as typed. */
  readonly name: string;
  readonly profession: string;
  /** The sign-in name of who signed. */
  readonly by: string;
  readonly at: string;
}

export interface SettingsRepository {
  get(): Promise<Versioned<ClinicSettings>>;
  change(
    change: Partial<ClinicSettings>,
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<ClinicSettings>>;
}

/** The clinic's own limits over the shipped fit rules. They say nothing of a child: reading them is not audited. */
export interface FitLimitsRepository {
  /** What stands; the version counts the saves, 0 before the first. */
  current(): Promise<Versioned<readonly ClinicLimit[]>>;
  /** That version alone: cheap enough to ask before every use of the rules. */
  version(): Promise<number>;
  /** All or none, each checked by devices/check-limit-changes. */
  change(
    changes: readonly LimitChange[],
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<readonly ClinicLimit[]>>;
  /** Every change ever made (of a family; null for all), newest first. */
  history(family: string | null, page: PageRequest): Promise<Page<LimitChangeRow>>;
  /** Devices in use of active children by what decides which limits reach them. */
  devicesInUse(): Promise<readonly DeviceGroup[]>;
}

/** Which defaults a practitioner of the clinic has read and signed. They say nothing of a child. */
export interface SignOffsRepository {
  /** The newest of each subject. */
  latest(): Promise<readonly SignOff[]>;
  sign(signed: Omit<SignOff, 'by' | 'at'>, actor: Actor): Promise<void>;
}
