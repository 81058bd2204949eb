import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { refuseStale } from '../refusals.js';
import type { Actor, ClinicSettings, Expected, Versioned } from '../shapes.js';
import { keptByStanding } from '../standing.js';
import { defaultSettings } from './default-settings.js';

const NAME = 'clinic';

export const settingsRepository = (db: Database) => ({
  get: () => kept(db),

  change: (
    change: Partial<ClinicSettings>,
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<ClinicSettings>> =>
    atomically(db, async (tx) => {
      const before = await read(tx, true);
      refuseStale(expected, before.version);
      const value = { ...before.value, ...change };
      const row = {
        value: JSON.stringify(value),
        version: before.version + 1,
        updated_by: actor.name,
        updated_at: new Date(),
      };
      await tx
        .insertInto('settings')
        .values({ name: NAME, ...row })
        .onConflict((c) => c.column('name').doUpdateSet(row))
        .execute();
      await writeAudit(tx, actor, 'change', 'settings', { fields: Object.keys(change) });
      return { value, version: row.version };
    }),
});

const kept = keptByStanding('settings', read);

async function read(db: Database, lock = false): Promise<Versioned<ClinicSettings>> {
  const row = await db
    .selectFrom('settings')
    .selectAll()
    .where('name', '=', NAME)
    .$if(lock, (q) => q.forUpdate())
    .executeTakeFirst();
  return {
    value: { ...defaultSettings, ...((row?.value ?? {}) as Partial<ClinicSettings>) },
    version: row?.version ?? 0,
  };
}
