import { sql } from 'kysely';
import { dateFaults, refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { notFound } from '../refusals.js';
import type { Actor } from '../shapes.js';
import { eventKind } from './events.js';
import { readingKind } from './measurements.js';
import { requireChild } from './require-child.js';
import { corrections, type RevisedKind, type RevisedRow } from './revised.js';
import { skinCheckKind } from './skin-checks.js';

/** A visit entered on the wrong day: its readings, skin checks and judgements of fit go to the right one together. */
export const moveVisit = (
  db: Database,
  childId: string,
  { from, to, reason }: { from: IsoDate; to: IsoDate; reason: string },
  today: IsoDate,
  actor: Actor,
): Promise<number> =>
  atomically(db, async (tx) => {
    const child = await requireChild(tx, childId, 'update');
    refuse(dateFaults('Visit', 'date', to, { from: child.value.birthDate, since: 'birth', today }));
    const move = async <T extends { id: string; date: IsoDate }>(
      kind: RevisedKind<T>,
      belongs: (record: T) => boolean = () => true,
    ): Promise<number> => {
      const { rows } = await sql<RevisedRow>`select * from ${sql.table(kind.at.current)}
        where child_id = ${childId} and date = ${from} order by seq`.execute(tx);
      const found = rows.map(kind.at.of).filter(belongs);
      const change = { date: to, reason } as unknown as Partial<T> & { reason: string };
      for (const { id } of found) await corrections(tx, kind).correct(id, change, today, null, actor);
      return found.length;
    };
    const moved =
      (await move(readingKind)) +
      (await move(eventKind, ({ kind }) => kind === 'verdict')) +
      (await move(skinCheckKind));
    if (moved === 0) throw notFound('visit on that day');
    await writeAudit(tx, actor, 'correct', 'visit', { childId, from, to, moved });
    return moved;
  });
