import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { recordOf } from '../record-of.js';
import type { Actor, SheetAnswer } from '../shapes.js';

export const sheetAnswersRepository = (db: Database) => ({
  async list(): Promise<readonly SheetAnswer[]> {
    const rows = await db
      .selectFrom('sheet_answers')
      .selectAll()
      .orderBy('sheet')
      .orderBy('question')
      .execute();
    return rows.map(recordOf);
  },

  save: (answers: readonly Omit<SheetAnswer, 'updatedBy' | 'updatedAt'>[], actor: Actor) =>
    atomically(db, async (tx) => {
      for (const { sheet, question, asks, headings, answer } of answers) {
        const row = { asks, headings, answer, updated_by: actor.name, updated_at: new Date() };
        await tx
          .insertInto('sheet_answers')
          .values({ sheet, question, ...row })
          .onConflict((c) => c.columns(['sheet', 'question']).doUpdateSet(row))
          .execute();
      }
      if (answers.length > 0)
        await writeAudit(tx, actor, 'change', 'sheet-answers', { questions: answers.length });
    }),

  /** False where there is none. */
  remove: (sheet: string, question: string, actor: Actor) =>
    atomically(db, async (tx) => {
      const gone = await tx
        .deleteFrom('sheet_answers')
        .where('sheet', '=', sheet)
        .where('question', '=', question)
        .returning('question')
        .execute();
      if (gone.length > 0) await writeAudit(tx, actor, 'withdraw', 'sheet-answers', { questions: 1 });
      return gone.length > 0;
    }),
});
