/** Who signs in, and what was done. */

import { z } from 'zod';
import type { IsoDate } from '../../records/dates.js';
import type { AuditAction } from '../../words/audit-names.js';
import { type Actor, type Expected, type Page, type PageRequest, type Role, roles } from './actor.js';

export interface AuditRow {
  readonly id: string;
  readonly at: string;
  readonly userId: string;
  readonly userName: string;
  readonly role: string;
  /** One of `auditActionNames`; a row of an earlier version may hold another. */
  readonly action: string;
  readonly resource: string;
  readonly childId: string | null;
  /** How many children a list, a file or a run showed; the log finds each by its id. */
  readonly childrenShown: number;
  readonly detail: AuditDetail;
}

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

export interface AuditRepository {
  record(actor: Actor, action: AuditAction, resource: string, about?: Audited): Promise<void>;
  /** Newest first. */
  list(
    filter: { childId?: string; userId?: string; action?: string; from?: string; to?: string },
    page: PageRequest,
  ): Promise<Page<AuditRow>>;
}

export interface UsersRepository {
  list(): Promise<readonly User[]>;
  get(userId: string): Promise<User>;
  create(
    user: { name: string; displayName?: string; role: Role; password?: string },
    actor: Actor,
  ): Promise<User>;
  change(
    userId: string,
    change: { displayName?: string; role?: Role; disabled?: boolean; password?: string },
    expected: Expected,
    actor: Actor,
  ): Promise<User>;
  /** Changes the own password, by the present one; ends every session and token of the account. */
  changeOwnPassword(userId: string, present: string, next: string, actor: Actor): Promise<User>;
  /** Ends every session, token and feed of an account: its provider gives it no role any more, or its owner asked. */
  endSessions(userId: string, why: 'role-withdrawn' | 'sign-out', actor: Actor): Promise<User>;
  /** The account of this OpenID subject, made on first sight with this role; its role follows the provider. */
  fromOidc(subject: {
    issuer: string;
    subject: string;
    name: string;
    displayName: string;
    role: Role;
  }): Promise<User>;
  /** The user when name and password fit, else null; takes as long for an unknown name. */
  signIn(name: string, password: string): Promise<User | null>;
}

/** How often somebody tried to sign in, by the name typed. */
export interface SignInTriesRepository {
  /** Counts a try; the time before which none is taken, null when this one may go on. */
  begin(account: string, now: Date): Promise<Date | null>;
  /** After a sign-in that succeeded. */
  clear(account: string): Promise<void>;
  sweep(now: Date): Promise<void>;
}

export interface SessionsRepository {
  get(id: string): Promise<Record<string, unknown> | null>;
  set(id: string, data: Record<string, unknown>, expiresAt: Date): Promise<void>;
  remove(id: string): Promise<void>;
  sweep(now: Date): Promise<void>;
}

export interface AccessTokensRepository {
  /** A new bearer token, shown once. */
  create(userId: string, expiresAt: Date): Promise<string>;
  userOf(token: string, now: Date): Promise<User | null>;
  revoke(token: string): Promise<void>;
}

export interface IdempotencyRepository {
  /** The answer kept under a key; null where there is none yet. */
  kept(userId: string, key: string): Promise<KeptAnswer | null>;
  /**
   * Claims the key inside a transaction: null when it is new, else the answer given before. Another request with the
   * key waits here until the first has ended. Throws 'invalid-value' when it was used for another request.
   */
  claim(userId: string, key: string, requestHash: string): Promise<KeptAnswer | null>;
  keep(userId: string, key: string, answer: KeptAnswer): Promise<void>;
  sweep(before: Date): Promise<void>;
}
