import { type Expression, sql } from 'kysely';

/** The rows of a query as one JSON column, in the order it gives them: dates stay text, a time stamp becomes text. */
export const jsonRows = (query: Expression<unknown>, name: string) =>
  sql`(select coalesce(json_agg(r), '[]') from (${query}) r) as ${sql.ref(name)}`;

/** A time stamp out of a row, or out of a row that came as JSON. */
export const stampOf = (stamp: Date | string): string => new Date(stamp).toISOString();
