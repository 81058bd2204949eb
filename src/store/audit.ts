import { type Expression, type RawBuilder, sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import type { AuditAction } from '../words/audit-names.js';
import type { Database } from './connect.js';
import { jsonRows } from './json-rows.js';
import { newestFirst } from './page-cursor.js';
import { recordOf } from './record-of.js';
import { notFound } from './refusals.js';
import type { Actor, Audited, AuditRow, PageRequest } from './shapes.js';

/** Who did what to which record; what is said of it never carries a name or a reading. */
const rowOf = (
  actor: Actor,
  action: AuditAction,
  resource: string,
  { childId, childIds, ...detail }: Audited = {},
) => ({
  user_id: actor.userId,
  user_name: actor.name,
  role: actor.role,
  action,
  resource,
  child_id: childId ?? null,
  child_ids: childIds === undefined ? null : [...new Set(childIds)],
  detail: JSON.stringify(detail),
  request_id: actor.requestId ?? null,
});

export async function writeAudit(db: Database, ...entry: Parameters<typeof rowOf>): Promise<void> {
  await db
    .insertInto('audit')
    .values(rowOf(...entry))
    .execute();
}

/** Reads rows of a child as JSON and leaves the row of the log in the same statement; refused where there is no such child. */
export const readOfChild = async <R>(
  db: Database,
  childId: string,
  resource: string,
  actor: Actor,
  query: Expression<unknown>,
): Promise<readonly R[]> =>
  (await readColumnsOfChild<{ rows: R[] }>(db, childId, resource, actor, jsonRows(query, 'rows'))).rows;

/** The same of several tables at once, a column each. */
export async function readColumnsOfChild<R>(
  db: Database,
  childId: string,
  resource: string,
  actor: Actor,
  columns: RawBuilder<unknown>,
): Promise<R> {
  const row = rowOf(actor, 'read', resource, { childId });
  const { rows } = await sql<R & { known: boolean }>`
    with child as (select id from children where id = ${childId}),
      logged as (insert into audit (${sql.join(Object.keys(row).map((column) => sql.ref(column)))})
        select ${sql.join(Object.values(row))} from child)
    select exists (select from child) as known, ${columns}`.execute(db);
  if (!rows[0].known) throw notFound('child');
  return rows[0];
}

function dayOf(field: 'from' | 'to', given: string): Date {
  const day = new Date(given);
  if (!Number.isNaN(day.getTime())) return day;
  throw new DoorpostError('invalid-value', `${field} is no date`, {
    field,
    accepted: 'a date as 2024-03-17',
  });
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
    if (filter.from) query = query.where('at', '>=', dayOf('from', filter.from));
    if (filter.to) query = query.where('at', '<', dayOf('to', filter.to));
    return newestFirst(
      query,
      page,
      ({ seq, child_ids, request_id, detail, ...row }): AuditRow => ({
        id: seq,
        ...recordOf(row),
        childrenShown: child_ids?.length ?? 0,
        detail: { ...detail },
      }),
    );
  },
});
