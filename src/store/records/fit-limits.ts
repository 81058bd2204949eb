import { type Selectable, sql } from 'kysely';
import { checkLimitChanges } from '../../rules/check-limit-changes.js';
import type { LimitChange } from '../../rules/clinic-limits.js';
import { type ClinicLimit, limitKey } from '../../rules/clinic-limits.js';
import { figureOf } from '../../rules/figure-of.js';
import type { DeviceGroup } from '../../rules/limit-reach.js';
import { loadRules } from '../../rules/load-rules.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { newestFirst } from '../page-cursor.js';
import { recordOf } from '../record-of.js';
import { refuseStale } from '../refusals.js';
import type { Actor, Expected, LimitChangeRow, PageRequest, Versioned } from '../shapes.js';
import { standing } from '../standing.js';
import type { Tables } from '../tables.js';

export const fitLimitsRepository = (db: Database) => ({
  /** What stands; the version counts the saves, 0 before the first. */
  current: () => current(db),
  /** That version alone: cheap enough to ask before every use of the rules. */
  version: async () => (await standing(db)).fitLimits,

  /** All or none, each checked by rules/check-limit-changes. */
  change: (changes: readonly LimitChange[], expected: Expected, actor: Actor) =>
    atomically(db, async (tx) => {
      // Readers go on; another writer waits and then finds the new version.
      await sql`lock table fit_limit_changes in exclusive mode`.execute(tx);
      const before = await current(tx);
      refuseStale(expected, before.version);
      if (changes.length === 0) return before;
      const shipped = loadRules();
      checkLimitChanges(shipped, before.value, changes);
      const stood = new Map(before.value.map((l) => [limitKey(l), l.mm]));
      await tx
        .insertInto('fit_limit_changes')
        .values(
          changes.map((c) => ({
            version: before.version + 1,
            family: c.family,
            measure: c.measure,
            figure: c.figure,
            mm: c.mm,
            before_mm: stood.get(limitKey(c)) ?? figureOf(shipped, c)!.value,
            reason: c.reason,
            changed_by: actor.name,
          })),
        )
        .execute();
      await writeAudit(tx, actor, 'change', 'fit-rules', {
        version: before.version + 1,
        limits: changes.map((c) => ({ limit: limitKey(c), mm: c.mm })),
      });
      return current(tx);
    }),

  /** Every change ever made (of a family; null for all), newest first. */
  async history(family: string | null, page: PageRequest) {
    let query = db.selectFrom('fit_limit_changes').selectAll();
    if (family !== null) query = query.where('family', '=', family);
    return newestFirst(query, page, rowOf);
  },

  /** Devices in use of active children by what decides which limits reach them. */
  async devicesInUse() {
    const { rows } = await sql<DeviceGroup>`
      select d.family, d.data ->> 'footplate' as footplate,
        array(select jsonb_object_keys((d.data -> 'allowancesMm') || (d.data -> 'limitsMm')) order by 1) as stated,
        count(*)::int as devices
      from devices d join children c on c.id = d.child_id
      where d.status <> 'retired' and c.status = 'active'
      group by 1, 2, 3`.execute(db);
    return rows;
  },
});

async function current(db: Database): Promise<Versioned<readonly ClinicLimit[]>> {
  const rows = await db
    .selectFrom('fit_limit_changes')
    .distinctOn(['family', 'measure', 'figure'])
    .selectAll()
    .orderBy('family')
    .orderBy('measure')
    .orderBy('figure')
    .orderBy('seq', 'desc')
    .execute();
  const value = rows
    .map(rowOf)
    .flatMap(({ family, measure, figure, mm, reason, by, at }) =>
      mm === null ? [] : [{ family, measure, figure, mm, reason, by, at }],
    );
  // Of the same rows, not of a second look: the newest save is the newest of some figure.
  return { value, version: Math.max(0, ...rows.map((r) => r.version)) };
}

const rowOf = ({
  seq,
  changed_by,
  changed_at,
  ...row
}: Selectable<Tables['fit_limit_changes']>): LimitChangeRow => ({
  id: seq,
  ...recordOf(row),
  by: changed_by,
  at: changed_at.toISOString(),
});
