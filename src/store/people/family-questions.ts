import { randomUUID } from 'node:crypto';
import type { Selectable } from 'kysely';
import { DoorpostError } from '../../errors.js';
import type { FamilyAnswer } from '../../records/family-answer.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { requireChild, requireDevice } from '../records/require-child.js';
import { notFound } from '../refusals.js';
import type { Actor, FamilyQuestion, WaitingAnswer } from '../shapes.js';
import type { Tables } from '../tables.js';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of queries, each short
export const familyQuestionsRepository = (db: Database) => ({
  /** One open question a child; asked again it is for the device given now. */
  ask: (childId: string, deviceId: string, now: Date, actor: Actor) =>
    atomically(db, async (tx) => {
      await requireChild(tx, childId, 'share');
      const { value: device } = await requireDevice(tx, deviceId);
      if (device.childId !== childId) throw notFound('device of this child');
      // Asked anew, the question that was not answered is for this device now.
      await tx
        .deleteFrom('family_questions')
        .where('child_id', '=', childId)
        .where('answered_at', 'is', null)
        .execute();
      const id = randomUUID();
      await tx
        .insertInto('family_questions')
        .values({ id, child_id: childId, device_id: deviceId, asked_by: actor.name, asked_at: now })
        .execute();
      await writeAudit(tx, actor, 'ask', 'family-question', { childId, id });
    }),

  /** Open and answered ones a clinician has not decided on, newest first; whoever asks has read the child's record. */
  async ofChild(childId: string) {
    const rows = await db
      .selectFrom('family_questions')
      .selectAll()
      .where('child_id', '=', childId)
      .where('decided_at', 'is', null)
      .orderBy('asked_at', 'desc')
      .execute();
    return rows.map(questionOf);
  },

  /** Answers of active children that wait for a clinician, oldest first. */
  async waiting(actor: Actor): Promise<readonly WaitingAnswer[]> {
    const rows = await db
      .selectFrom('family_questions as q')
      .innerJoin('children as c', 'c.id', 'q.child_id')
      .selectAll('q')
      .select('c.data as child')
      .where('q.answered_at', 'is not', null)
      .where('q.decided_at', 'is', null)
      .where('c.status', '=', 'active')
      .orderBy('q.answered_at')
      .limit(200)
      .execute();
    if (rows.length > 0)
      await writeAudit(db, actor, 'list', 'family-answers', { childIds: rows.map((r) => r.child_id) });
    return rows.map((r) => ({ ...questionOf(r), childName: r.child.name, contact: r.child.contact }));
  },

  /** Throws 'not-found' where it is another child's or was answered. */
  answer: (id: string, childId: string, answer: FamilyAnswer, now: Date, actor: Actor) =>
    atomically(db, async (tx) => {
      const row = await tx
        .updateTable('family_questions')
        .set({ ...answer, answered_at: now, link_id: actor.userId })
        .where('id', '=', id)
        // A link answers for its own child only, and once.
        .where('child_id', '=', childId)
        .where('answered_at', 'is', null)
        .returningAll()
        .executeTakeFirst();
      if (!row) throw new DoorpostError('not-found', 'These questions are not open any more');
      await writeAudit(tx, actor, 'answer', 'family-question', { childId, id, linkId: actor.userId });
      return questionOf(row);
    }),

  decide: (id: string, childId: string, decision: 'accepted' | 'set-aside', now: Date, actor: Actor) =>
    atomically(db, async (tx) => {
      const row = await tx
        .updateTable('family_questions')
        .set({ decision, decided_at: now, decided_by: actor.name })
        .where('id', '=', id)
        .where('child_id', '=', childId)
        .where('answered_at', 'is not', null)
        .where('decided_at', 'is', null)
        .returningAll()
        .executeTakeFirst();
      if (!row) throw notFound('answer of this family that waits');
      await writeAudit(tx, actor, decision === 'accepted' ? 'accept' : 'set-aside', 'family-answer', {
        childId,
        id,
      });
      return questionOf(row);
    }),
});

const questionOf = (r: Selectable<Tables['family_questions']>): FamilyQuestion => ({
  id: r.id,
  childId: r.child_id,
  deviceId: r.device_id,
  askedBy: r.asked_by,
  askedAt: r.asked_at.toISOString(),
  answer:
    r.answered_at && r.marks
      ? {
          at: r.answered_at.toISOString(),
          toes: r.toes,
          marks: r.marks,
          place: r.place,
          minutes: r.minutes,
        }
      : null,
});
