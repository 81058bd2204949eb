import { sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import type { AuditAction } from '../words/audit-names.js';
import type { Database } from './connect.js';
import { newestFirst } from './page-cursor.js';
import type { Actor, Audited, AuditRow, PageRequest } from './shapes.js';

/** Writes who did what to which record; what is said of it never carries a name or a reading. */
export async function writeAudit(
  db: Database,
  actor: Actor,
  action: AuditAction,
  resource: string,
  { childId, childIds, ...detail }: Audited = {},
): Promise<void> {
  await db
    .insertInto('audit')
    .values({
      user_id: actor.userId,
      user_name: actor.name,
      role: actor.role,
      action,
      resource,
      child_id: childId ?? null,
      child_ids: childIds === undefined ? null : [...new Set(childIds)],
      detail: JSON.stringify(detail),
      request_id: actor.requestId ?? null,
    })
    .execute();
}

export const auditRepository = (db: Database) => ({
  record: (actor: Actor, action: AuditAction, resource: string, about?: Audited) =>
    writeAudit(db, actor, action, resource, about),

  /** Newest first. */
  async list(
    filter: { childId?: string; userId?: string; action?: string; from?: string; to?: string },
    page: PageRequest,
  ) {
    let query = db.selectFrom('audit').selectAll();
    const { childId } = filter;
    if (childId)
      query = query.where((e) =>
        e.or([e('child_id', '=', childId), e('child_ids', '@>', sql<string[]>`array[${childId}]::text[]`)]),
      );
    if (filter.userId) query = query.where('user_id', '=', filter.userId);
    if (filter.action) query = query.where('action', '=', filter.action);
    for (const field of ['from', 'to'] as const)
      if (filter[field] && Number.isNaN(Date.parse(filter[field])))
        throw new DoorpostError('invalid-value', `${field} is no date`, {
          field,
          accepted: 'a date as 2024-03-17',
        });
    if (filter.from) query = query.where('at', '>=', new Date(filter.from));
    if (filter.to) query = query.where('at', '<', new Date(filter.to));
    return newestFirst(
      query,
      page,
      (r): AuditRow => ({
        id: r.seq,
        at: r.at.toISOString(),
        userId: r.user_id,
        userName: r.user_name,
        role: r.role,
        action: r.action,
        resource: r.resource,
        childId: r.child_id,
        childrenShown: r.child_ids?.length ?? 0,
        detail: { ...r.detail },
      }),
    );
  },
});
