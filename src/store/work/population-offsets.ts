import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { ModelId, PopulationOffsets } from '../contract/work.js';

export const populationOffsetsRepository = (db: Database): PopulationOffsets => {
  const newest = ({ name, version }: ModelId) =>
    db
      .selectFrom('population_offsets')
      .where('model_name', '=', name)
      .where('model_version', '=', version)
      .orderBy('seq', 'desc')
      .limit(1);
  return {
    async version(model) {
      return (await newest(model).select('seq').executeTakeFirst())?.seq ?? null;
    },
    async latest(model) {
      const row = await newest(model).selectAll().executeTakeFirst();
      return row ? { learnedOn: row.learned_on, children: row.children, offsets: row.offsets } : null;
    },
    keep: ({ name, version }, { learnedOn, children, offsets }) =>
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
