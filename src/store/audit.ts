import { sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import type { AuditAction } from '../words/audit-names.js';
import type { Database } from './connect.js';
import type { Actor, Audited, AuditRow, PageRequest, Store } from './contract.js';
import { pageLimit, readCursor, toPage } from './page-cursor.js';

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

export const auditRepository = (db: Database): Store['audit'] => ({
  record: (...entry) => writeAudit(db, ...entry),

  async list(filter, page: PageRequest) {
    const limit = pageLimit(page);
    const after = readCursor(page, 1);
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
    if (after && /^\d{1,18}$/.test(after[0] ?? '')) query = query.where('seq', '<', after[0] as string);
    const rows = await query
      .orderBy('seq', 'desc')
      .limit(limit + 1)
      .execute();
    return toPage(
      rows,
      limit,
      (r) => [r.seq],
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
        detail: r.detail,
      }),
    );
  },
});
