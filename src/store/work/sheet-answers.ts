import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';

export const sheetAnswersRepository = (db: Database): Store['sheetAnswers'] => ({
  async list() {
    const rows = await db
      .selectFrom('sheet_answers')
      .selectAll()
      .orderBy('sheet')
      .orderBy('question')
      .execute();
    return rows.map(({ updated_by, updated_at, ...row }) => ({
      ...row,
      updatedBy: updated_by,
      updatedAt: updated_at.toISOString(),
    }));
  },

  keep: (answers, actor) =>
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

  remove: (sheet, question, actor) =>
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
