/** Who signs in, and what was done. */

import { z } from 'zod';
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
export type Audited = AuditDetail & {
  readonly childId?: string | null;
  /** Every child that was shown, where it is more than one. */
  readonly childIds?: readonly string[];
};

/** All that a row of the log can say besides: ids, codes, days and counts, never a name of a child or a reading. */
export type AuditDetail = { readonly [K in Ids | Said]?: string } & { readonly [K in Counts]?: number } & {
  readonly measurementIds?: readonly string[];
  /** Which fields were changed, which limits were set. */
  readonly fields?: readonly string[];
  readonly limits?: readonly { readonly limit: string; readonly mm: number | null }[];
};
/** The record that was touched, and others by what they are. */
type Ids =
  | 'id'
  | `${'device' | 'event' | 'measurement' | 'marker' | 'skinCheck' | 'job' | 'entry' | 'import' | 'link' | 'run' | 'user'}Id`;
type Said =
  /** Of what kind: of event, of marker, of skin. */
  | ('kind' | 'state')
  /** A state or a day, before and after. */
  | ('from' | 'to' | 'date')
  /** As the person wrote it, for an erasure or an import. */
  | ('reason' | 'why')
  /** What was signed, by its digest. */
  | ('subject' | 'content')
  /** How somebody signed in, and with what name where that failed. */
  | ('by' | 'nameTried' | 'role');
/** How many records, days, or times. */
type Counts =
  | ('version' | 'revision' | 'days' | 'questions')
  | ('added' | 'changed' | 'unchanged' | 'moved' | 'removed' | 'stays');
