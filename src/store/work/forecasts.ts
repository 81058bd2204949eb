import { type SqlBool, sql } from 'kysely';
import { type DeviceForecast, isUnknown } from '../../forecast/contract.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { columnsOf, recordOf } from '../record-of.js';
import { requireChild, stillThere } from '../records/require-child.js';
import type { Actor, ForecastSummary, MadeForecasts, PastForecast, StoredAssessment } from '../shapes.js';

export const forecastsRepository = (db: Database) => ({
  async latestByChild(childId: string, actor: Actor) {
    await requireChild(db, childId);
    await writeAudit(db, actor, 'read', 'forecasts', { childId });
    return (await stored(db, [childId])).get(childId)?.forecasts ?? [];
  },

  assessment: async (childId: string) => (await stored(db, [childId])).get(childId) ?? null,

  /** Of many children at once, by child; who has none is left out. */
  assessments: (childIds: readonly string[]): Promise<ReadonlyMap<string, StoredAssessment>> =>
    stored(db, childIds),

  /** Each of another child; one that was erased meanwhile is passed over. */
  save: (...assessments: readonly StoredAssessment[]) =>
    atomically(db, async (tx) => save(tx, await ofThoseThere(tx, assessments))),

  /** Forecasts of a day long past, made later from the record as it stood then: kept as history alone. */
  saveLookBack: (made: readonly MadeForecasts[], madeOn: IsoDate) =>
    atomically(db, async (tx) => keepHistory(tx, await ofThoseThere(tx, made), madeOn)),

  /** How many active children have an assessment, of how many. */
  async coverage(): Promise<{ readonly done: number; readonly total: number }> {
    const row = await db
      .selectFrom('children as c')
      .leftJoin('assessments as a', 'a.child_id', 'c.id')
      .where('c.status', '=', 'active')
      .select([sql<number>`count(*)::int`.as('total'), sql<number>`count(a.child_id)::int`.as('done')])
      .executeTakeFirstOrThrow();
    return row;
  },

  /** Every past answer of a device, oldest first, without the curve: for forecast against what happened. */
  async history(deviceIds?: readonly string[]): Promise<readonly PastForecast[]> {
    if (deviceIds?.length === 0) return [];
    const rows = await db
      .selectFrom('forecast_history')
      .select(['device_id', 'child_id', 'family', 'today', 'outcome', 'p10', 'p50', 'p90'])
      .select(['inputs_hash', 'model_version', 'made_on'])
      .$if(!!deviceIds, (q) => q.where(sql<SqlBool>`device_id = any(${deviceIds})`))
      // A look back is made after what it comes before.
      .orderBy('today')
      .orderBy('seq')
      .execute();
    return rows.map(recordOf);
  },
});

async function stored(db: Database, childIds: readonly string[]): Promise<Map<string, StoredAssessment>> {
  if (childIds.length === 0) return new Map();
  const rows = await db.selectFrom('assessments').selectAll().where('child_id', 'in', childIds).execute();
  return new Map(
    rows.map(({ data, soonest, soonest_key, seed, ...row }) => [
      row.child_id,
      { ...data, ...recordOf(row), seed: Number(seed) },
    ]),
  );
}

/** Day by which a device sorts among those outgrown soonest; unknown is an even chance today; null where no date will come. */
const sortDay = (f: Pick<DeviceForecast, 'outcome' | 'p50'>, today: IsoDate): string | null => {
  if (f.outcome === 'already-outgrown') return '0001-01-01';
  return isUnknown(f) ? today : f.p50;
};

async function ofThoseThere<T extends { readonly childId: string }>(
  tx: Database,
  made: readonly T[],
): Promise<readonly T[]> {
  const ids = await stillThere(
    tx,
    made.map((m) => m.childId),
  );
  return made.filter((m) => ids.has(m.childId));
}

async function save(tx: Database, assessments: readonly StoredAssessment[]): Promise<void> {
  if (assessments.length === 0) return;
  const devices = await tx
    .selectFrom('devices')
    .select(['id', sql<Device['side']>`data ->> 'side'`.as('side')])
    .where(sql<SqlBool>`child_id = any(${assessments.map((a) => a.childId)})`)
    .execute();
  const sideOf = new Map(devices.map((d) => [d.id, d.side]));
  const rows = assessments.map((a) => rowOf(a, sideOf));
  const columns = Object.keys(rows[0]) as (keyof (typeof rows)[number])[];
  await tx
    .insertInto('assessments')
    .values(rows)
    .onConflict((c) =>
      c
        .column('child_id')
        .doUpdateSet((e) => Object.fromEntries(columns.map((name) => [name, e.ref(`excluded.${name}`)]))),
    )
    .execute();
  await keepHistory(tx, assessments, null);
}

function rowOf(a: StoredAssessment, sideOf: ReadonlyMap<string, Device['side']>) {
  const { forecasts, flags, suggestions, lastDay, program } = a;
  const { childId, today, inputsHash, modelName, modelVersion, seed, computedAt } = a;
  const soonest = forecasts
    .filter((f) => f.outcome !== 'not-in-use')
    .map((f) => ({ f, day: sortDay(f, a.today) }))
    .sort((x, y) => (x.day ?? '9999').localeCompare(y.day ?? '9999'))[0];
  const summary: ForecastSummary | null = soonest && {
    deviceId: soonest.f.deviceId,
    family: soonest.f.family,
    side: sideOf.get(soonest.f.deviceId) ?? 'none',
    outcome: soonest.f.outcome,
    p10: soonest.f.p10,
    p50: soonest.f.p50,
    p90: soonest.f.p90,
    today: a.today,
  };
  return {
    ...columnsOf({ childId, today, inputsHash, modelName, modelVersion, seed, computedAt }),
    data: JSON.stringify({ forecasts, flags, suggestions, lastDay, program }),
    soonest: summary ? JSON.stringify(summary) : null,
    soonest_key: soonest?.day ?? null,
  };
}

/** One row a device and month for the same inputs; `madeOn` where it was made for a day long past. */
async function keepHistory(
  tx: Database,
  made: readonly MadeForecasts[],
  madeOn: IsoDate | null,
): Promise<void> {
  const rows = made.flatMap((a) =>
    a.forecasts.map((f) => ({
      device_id: f.deviceId,
      child_id: a.childId,
      family: f.family,
      today: a.today,
      month: `${a.today.slice(0, 7)}-01`,
      outcome: f.outcome,
      p10: f.p10,
      p50: f.p50,
      p90: f.p90,
      inputs_hash: a.inputsHash,
      model_version: a.modelVersion,
      seed: f.seed,
      made_on: madeOn,
    })),
  );
  if (rows.length === 0) return;
  await tx
    .insertInto('forecast_history')
    .values(rows)
    .onConflict((c) => c.doNothing())
    .execute();
}
