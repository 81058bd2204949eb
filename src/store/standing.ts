import { sql } from 'kysely';
import { lastUsed } from '../statistics/last-used.js';
import { onceFor } from '../statistics/once-for.js';
import type { Database } from './connect.js';
import { rowsVersion } from './rows-version.js';

/** Versions of what nearly every page asks for and hardly anybody changes. */
export interface Standing {
  readonly settings: number;
  readonly fitLimits: number;
  readonly signOffs: string;
  readonly workshopJobs: string;
  /** Which recall lists there are. */
  readonly runs: string;
  /** Who stands on a recall list, and how the work with them does. */
  readonly lists: string;
}

const asked = new WeakMap<Database, Promise<Standing>>();

/**
 * How those things stand now. Whoever asks in the same turn shares one query, which begins after the last of them has
 * asked: what is kept by such a version is never older than the question, whichever host has changed it.
 */
export function standing(db: Database): Promise<Standing> {
  const waiting = asked.get(db);
  if (waiting) return waiting;
  const answer = new Promise<void>((resolve) => setImmediate(resolve)).then(() => {
    asked.delete(db);
    return look(db);
  });
  asked.set(db, answer);
  return answer;
}

async function look(db: Database): Promise<Standing> {
  const { rows } = await sql<Standing>`select
    coalesce((select version from settings where name = 'clinic'), 0) as "settings",
    coalesce((select max(version) from fit_limit_changes), 0) as "fitLimits",
    coalesce((select max(seq) from sign_offs), 0) as "signOffs",
    ${rowsVersion(['recall_runs'])} as "runs",
    ${rowsVersion(['workshop_jobs'])} as "workshopJobs",
    ${rowsVersion(['recall_entries', 'children'])} as "lists"`.execute(db);
  return rows[0];
}

/**
 * Keeps what `read` gives until its version is another; asked by many at once it is read once. A transaction asks once:
 * what is kept there goes with it.
 */
export function keptByStanding<T>(of: keyof Standing, read: (db: Database) => Promise<T>) {
  const keptOf = onceFor((_db: Database) => lastUsed<Promise<T>>(1));
  return async (db: Database): Promise<T> => {
    if (db.isTransaction) return read(db);
    const version = (await standing(db))[of];
    return keptOf(db, '')(`${version}`, () => read(db));
  };
}
