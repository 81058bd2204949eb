import type { Actor } from '../contract.js';

/** The columns of a row in a table that only grows: a new record, or the next revision of the one `before`. */
export const appended = (
  actor: Actor,
  before: { readonly revision: number; readonly seq: string } | null = null,
  { withdrawn = false, reason = '' }: { withdrawn?: boolean; reason?: string } = {},
) => ({
  revision: (before?.revision ?? 0) + 1,
  corrects_seq: before?.seq ?? null,
  withdrawn,
  reason,
  recorded_by: actor.name,
});
