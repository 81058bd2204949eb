import { sql } from 'kysely';
import { lastUsed } from '../../statistics/last-used.js';
import { onceFor } from '../../statistics/once-for.js';
import type { Database } from '../connect.js';
import type { RecallBrief } from '../shapes.js';
import { standing } from '../standing.js';

interface Briefs {
  readonly all: readonly RecallBrief[];
  /** Only who is called. */
  readonly due: readonly RecallBrief[];
}
/** The list in use and the one before are asked for by every page of the list. */
const keptOf = onceFor((_db: Database) => lastUsed<Promise<Briefs>>(2));

/** Where everybody of a list stands: read again only once an entry or a child has changed. */
export async function recallBriefs(db: Database, runId: string): Promise<Briefs> {
  const version = (await standing(db)).lists;
  return keptOf(db, '')(`${runId} ${version}`, () => readBriefs(db, runId));
}

async function readBriefs(db: Database, runId: string): Promise<Briefs> {
  const [rows, said] = await Promise.all([
    listed(db, runId)
      .select(['e.id', 'e.child_id', 'e.list', 'e.state', 'e.appointment'])
      .select(sql<string>`c.data ->> 'clinician'`.as('clinician'))
      .orderBy('e.position')
      .execute(),
    saidOf(db, '')(runId, () => readSaid(db, runId)),
  ]);
  const all = rows.flatMap(({ child_id, ...row }) => {
    const entry = said.get(row.id);
    return entry ? [{ ...row, childId: child_id, entry }] : [];
  });
  return { all, due: all.filter((r) => r.list !== 'open') };
}

/** What a list says of its entries never changes; it is the larger part by far. */
const saidOf = onceFor((_db: Database) => lastUsed<Promise<ReadonlyMap<string, RecallBrief['entry']>>>(2));

async function readSaid(db: Database, runId: string): Promise<ReadonlyMap<string, RecallBrief['entry']>> {
  const rows = await db
    .selectFrom('recall_entries')
    .select(['id', 'brief'])
    .where('run_id', '=', runId)
    .execute();
  return new Map(rows.map((r) => [r.id, r.brief]));
}

/** Entries of a list whose child's name, number or contact holds the text. */
export async function entriesFound(db: Database, runId: string, text: string): Promise<ReadonlySet<string>> {
  const rows = await listed(db, runId)
    .select('e.id')
    .where(
      sql<boolean>`position(${text.toLowerCase()} in concat_ws(chr(10), c.name_key, lower(c.id), lower(c.data ->> 'contact'))) > 0`,
    )
    .execute();
  return new Set(rows.map((r) => r.id));
}

/** Who died or moved away since the list was made is on no list. */
const listed = (db: Database, runId: string) =>
  db
    .selectFrom('recall_entries as e')
    .innerJoin('children as c', 'c.id', 'e.child_id')
    .where('e.run_id', '=', runId)
    .where('c.status', '=', 'active');
