/** Who signs in, and what was done. */

import { z } from 'zod';
import type { IsoDate } from '../../records/dates.js';
import { roles } from '../../records/roles.js';

export const auditRow = z.object({
  id: z.string(),
  at: z.string(),
  userId: z.string(),
  userName: z.string(),
  role: z.string(),
  /** One of `auditActionNames`; a row of an earlier version may hold another. */
  action: z.string(),
  resource: z.string(),
  childId: z.string().nullable(),
  childrenShown: z
    .number()
    .describe('how many children a list, a file or a run showed; the log finds each by its id'),
  detail: z.record(z.string(), z.unknown()),
});
export type AuditRow = Readonly<z.infer<typeof auditRow>>;

export const user = z.object({
  id: z.string(),
  name: z.string().describe('to sign in with, lower case'),
  displayName: z.string(),
  role: z.enum(roles),
  disabled: z.boolean(),
  hasPassword: z.boolean(),
  passwordByOther: z.boolean().describe('given by an administrator; to be changed before anything else'),
  version: z.number(),
});
export type User = Readonly<z.infer<typeof user>>;

export interface KeptAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

/** Whose record it was. */
export interface Audited extends AuditDetail {
  readonly childId?: string | null;
  /** Every child that was shown, where it is more than one. */
  readonly childIds?: readonly string[];
}

/** All that a row of the log can say besides: ids, codes, days and counts, never a name of a child or a reading. */
export interface AuditDetail {
  /** The record that was touched. */
  readonly id?: string;
  readonly deviceId?: string;
  readonly eventId?: string;
  readonly measurementId?: string;
  readonly measurementIds?: readonly string[];
  readonly markerId?: string;
  readonly skinCheckId?: string;
  readonly jobId?: string;
  readonly entryId?: string;
  readonly importId?: string;
  readonly linkId?: string;
  readonly runId?: string;
  readonly userId?: string;
  /** Of what kind: of event, of marker, of skin. */
  readonly kind?: string;
  readonly state?: string;
  /** Which fields were changed, which limits were set. */
  readonly fields?: readonly string[];
  readonly limits?: readonly { readonly limit: string; readonly mm: number | null }[];
  readonly version?: number;
  readonly revision?: number;
  /** A state or a day, before and after. */
  readonly from?: string;
  readonly to?: string;
  readonly date?: IsoDate;
  readonly days?: number;
  /** How many records. */
  readonly added?: number;
  readonly changed?: number;
  readonly unchanged?: number;
  readonly moved?: number;
  readonly removed?: number;
  readonly stays?: number;
  readonly questions?: number;
  /** As the person wrote it, for an erasure or an import. */
  readonly reason?: string;
  readonly why?: string;
  /** What was signed, by its digest. */
  readonly subject?: string;
  readonly content?: string;
  /** How somebody signed in, and with what name where that failed. */
  readonly by?: string;
  readonly nameTried?: string;
  readonly role?: string;
}
