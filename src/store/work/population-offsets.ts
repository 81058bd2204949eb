import type { PopulationOffset } from '../../growth/population/population-offset.js';
import type { IsoDate } from '../../records/dates.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';

/** The growth model an offset was learned for: of another it says nothing. */
export interface ModelId {
  readonly name: string;
  readonly version: string;
}

export interface LearnedPopulation {
  readonly learnedOn: IsoDate;
  /** Children that were looked at, whether or not they had enough readings. */
  readonly children: number;
  readonly offsets: readonly PopulationOffset[];
}

/** What the service learned of the clinic's own children. Derived: thrown away and learned again at will. */
export interface PopulationOffsets {
  /** Changes whenever something was learned; null before. Cheap enough to ask before every forecast. */
  version(model: ModelId): Promise<string | null>;
  latest(model: ModelId): Promise<LearnedPopulation | null>;
  /** In place of what was learned of this model on the same day. */
  keep(model: ModelId, learned: LearnedPopulation): Promise<void>;
}

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
