import { sql } from 'kysely';
import type { Database } from '../connect.js';

/** Of a change of state `s`: it takes none back and was not taken back itself. */
export const canBeUndone = sql<boolean>`s.undoes_seq is null
  and not exists (select 1 from recall_state_changes u where u.undoes_seq = s.seq)`;

/** Entries of recall lists with their child and the last thing said of them. */
export function recallEntryRows(db: Database) {
  return db
    .selectFrom('recall_entries as e')
    .innerJoin('children as c', 'c.id', 'e.child_id')
    .leftJoinLateral(
      (q) =>
        q
          .selectFrom('recall_state_changes as s')
          .select(['s.note', 's.by_name', 's.at'])
          .whereRef('s.entry_id', '=', 'e.id')
          .orderBy('s.seq', 'desc')
          .limit(1)
          .as('last'),
      (j) => j.onTrue(),
    )
    .select(['e.id', 'e.run_id', 'e.child_id', 'e.state', 'e.appointment', 'e.version', 'e.list'])
    .select(['last.note', 'last.by_name', 'last.at'])
    .select(
      sql<boolean>`exists (select 1 from recall_state_changes s where s.entry_id = e.id and ${canBeUndone})`.as(
        'can_undo',
      ),
    );
}
