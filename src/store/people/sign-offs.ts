import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { recordOf } from '../record-of.js';
import type { Actor, SignOff } from '../shapes.js';
import { keptByStanding } from '../standing.js';

export const signOffsRepository = (db: Database) => ({
  /** The newest of each subject. */
  latest: () => latest(db),

  async sign({ subject, content, name, profession }: Omit<SignOff, 'by' | 'at'>, actor: Actor) {
    await db
      .insertInto('sign_offs')
      .values({ subject, content, signed_name: name, profession, signed_by: actor.name })
      .execute();
    await writeAudit(db, actor, 'sign', 'sign-offs', { subject, content });
  },
});

const latest = keptByStanding('signOffs', async (db): Promise<readonly SignOff[]> => {
  const rows = await db
    .selectFrom('sign_offs')
    .distinctOn('subject')
    .select(['subject', 'content', 'signed_name as name', 'profession', 'signed_by as by', 'signed_at as at'])
    .orderBy('subject')
    .orderBy('seq', 'desc')
    .execute();
  return rows.map(recordOf);
});
