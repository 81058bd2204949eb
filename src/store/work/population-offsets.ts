import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { ModelId } from '../contract/work.js';
import type { LearnedPopulation } from '../shapes.js';
import { standing } from '../standing.js';

export const populationOffsetsRepository = (db: Database) => {
  const newest = ({ name, version }: ModelId) =>
    db
      .selectFrom('population_offsets')
      .where('model_name', '=', name)
      .where('model_version', '=', version)
      .orderBy('seq', 'desc')
      .limit(1);
  return {
    /** Changes whenever something was learned. Cheap enough to ask before every forecast. */
    version: async () => (await standing(db)).populationOffsets,
    async latest(model: ModelId): Promise<LearnedPopulation | null> {
      const row = await newest(model).selectAll().executeTakeFirst();
      return row ? { learnedOn: row.learned_on, children: row.children, offsets: row.offsets } : null;
    },
    /** In place of what was learned of this model on the same day. */
    save: ({ name, version }: ModelId, { learnedOn, children, offsets }: LearnedPopulation) =>
      atomically(db, async (tx) => {
        await tx
          .deleteFrom('population_offsets')
          .where('learned_on', '=', learnedOn)
          .where('model_name', '=', name)
          .where('model_version', '=', version)
          .execute();
        await tx
          .insertInto('population_offsets')
          .values({
            learned_on: learnedOn,
            model_name: name,
            model_version: version,
            children,
            offsets: JSON.stringify(offsets),
          })
          .execute();
      }),
  };
};
