import { type SelectQueryBuilder, sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import type { Page, PageRequest } from './shapes.js';

const DEFAULT_LIMIT = 50;
const MAX_LIMIT = 500;

export const pageLimit = (page: PageRequest): number =>
  Math.max(1, Math.min(MAX_LIMIT, page.limit ?? DEFAULT_LIMIT));

/** Where the page before ended: the sort keys of its last row. */
export function readCursor(page: PageRequest, keys: number): (string | null)[] | null {
  if (!page.cursor) return null;
  try {
    const read = JSON.parse(Buffer.from(page.cursor, 'base64url').toString('utf8'));
    if (
      Array.isArray(read) &&
      read.length === keys &&
      read.every((k) => k === null || (typeof k === 'string' && !k.includes('\0')))
    )
      return read;
  } catch {
    // told below
  }
  throw new DoorpostError('invalid-value', 'The cursor is not one that a page gave as nextCursor', {
    field: 'cursor',
    accepted: 'the nextCursor of the page before',
  });
}

/** Cuts limit + 1 rows to a page and says where the next begins. */
export function toPage<R, T>(
  rows: readonly R[],
  limit: number,
  keysOf: (row: R) => (string | null)[],
  itemOf: (row: R) => T,
): Page<T> {
  const shown = rows.slice(0, limit);
  return {
    items: shown.map(itemOf),
    nextCursor:
      rows.length > limit
        ? Buffer.from(JSON.stringify(keysOf(shown[shown.length - 1]))).toString('base64url')
        : null,
  };
}

/** A page of rows in the order they were written, the newest first. */
export async function newestFirst<D, T extends keyof D, R extends { seq: string }, I>(
  query: SelectQueryBuilder<D, T, R>,
  page: PageRequest,
  itemOf: (row: R) => I,
): Promise<Page<I>> {
  const limit = pageLimit(page);
  const after = readCursor(page, 1)?.[0] ?? '';
  const rows = await query
    .$if(/^\d{1,18}$/.test(after), (q) => q.where(sql<boolean>`seq < ${after}::bigint`))
    .orderBy(sql`seq`, 'desc')
    .limit(limit + 1)
    .execute();
  return toPage(rows, limit, (r) => [r.seq], itemOf);
}
