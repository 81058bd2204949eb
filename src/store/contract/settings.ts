/** What a clinic decides for itself. */

import { z } from 'zod';
import { type ClinicLimit, type LimitChange, limitPlace } from '../../rules/clinic-limits.js';
import type { DeviceGroup } from '../../rules/limit-reach.js';
import type { Actor, Expected, Page, PageRequest, Versioned } from './actor.js';
import type { ClinicSettings } from './clinic-settings.js';

/** One change of the clinic's limits; rows saved together share their version. */
export const limitChangeRow = z.object({
  id: z.string(),
  version: z.number().int(),
  ...limitPlace,
  mm: z.number().nullable().describe('null: back to the shipped figure'),
  beforeMm: z.number().describe('what stood before, the clinic’s or the shipped figure'),
  reason: z.string(),
  by: z.string(),
  at: z.iso.datetime(),
});
export type LimitChangeRow = Readonly<z.infer<typeof limitChangeRow>>;

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
