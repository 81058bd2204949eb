import { isDeepStrictEqual } from 'node:util';
import { type Selectable, sql } from 'kysely';
import { type Caseload, childrenIn } from '../../records/caseload.js';
import { caseloadFaults } from '../../records/check/caseload-faults.js';
import { childFaults } from '../../records/check/child-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { Database } from '../connect.js';
import type { Actor, WriteCounts } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import type { Tables } from '../tables.js';
import { childColumns, firstEntries, refuseTombstone } from './children.js';
import { deviceColumns, families } from './devices.js';
import {
  eventColumns,
  eventOf,
  markerColumns,
  markerOf,
  measurementColumns,
  measurementOf,
  skinCheckColumns,
  skinCheckOf,
} from './row-records.js';
import { workshopJobColumns } from './workshop-jobs.js';

/** Rows a statement: 500 x 15 columns stays far below PostgreSQL's 65,535 parameters. */
const CHUNK = 500;

/**
 * Adds what is new and changes what differs, by id; must run in a transaction, for what cannot be is refused after the
 * rows it is checked against are written. See Store.caseload.write.
 */
export async function writeCaseload(
  tx: Database,
  rows: Partial<Caseload>,
  reason: string,
  today: IsoDate,
  actor: Actor,
): Promise<WriteCounts> {
  const counts = { added: 0, changed: 0, unchanged: 0 };
  await sql`select pg_advisory_xact_lock(hashtext('doorpost-write-caseload'))`.execute(tx);
  const children = rows.children ?? [];
  for (const chunk of chunks(children))
    await refuseTombstone(
      tx,
      chunk.map((c) => c.id),
    );
  const changed = await upsert(tx, 'children', children, childColumns, counts);
  const devices = rows.devices ?? [];
  await upsert(tx, 'devices', devices, deviceColumns, counts);
  const deviceOf = await storedDevices(tx, rows);
  const birthDates = await storedBirthDates(tx, rows, deviceOf);
  refuse(
    caseloadFaults(rows, {
      birthDateOf: (id) => birthDates.get(id),
      deviceOf: (id) => deviceOf.get(id),
      today,
      families,
    }),
  );
  const childOf = (deviceId: string) => deviceOf.get(deviceId)!.childId;
  await upsert(
    tx,
    'workshop_jobs',
    rows.jobs ?? [],
    (j) => workshopJobColumns(j, childOf(j.deviceId)),
    counts,
  );
  const by = { recorded_by: actor.name, reason };
  await revise(tx, 'measurements', rows.measurements ?? [], measurementOf, measurementColumns, by, counts);
  await revise(tx, 'skin_checks', rows.skinChecks ?? [], skinCheckOf, skinCheckColumns, by, counts);
  await revise(tx, 'markers', rows.markers ?? [], markerOf, markerColumns, by, counts);
  await revise(
    tx,
    'device_events',
    rows.events ?? [],
    eventOf,
    (e) => eventColumns(e, childOf(e.deviceId)),
    by,
    counts,
  );
  const firstEntry = await firstEntries(
    tx,
    changed.map(({ id }) => id),
  );
  for (const child of changed) refuse(childFaults(child, today, firstEntry.get(child.id)));
  await writeAudit(tx, actor, 'import', 'caseload', { childIds: childrenIn(rows), ...counts, reason });
  return counts;
}

type Counts = { added: number; changed: number; unchanged: number };

function* chunks<T>(rows: readonly T[]): Generator<T[]> {
  for (let i = 0; i < rows.length; i += CHUNK) yield rows.slice(i, i + CHUNK);
}

/** Rows that change in place; which of them were changed comes back. */
async function upsert<T extends { id: string }>(
  tx: Database,
  table: 'children' | 'devices' | 'workshop_jobs',
  rows: readonly T[],
  columns: (row: T) => object,
  counts: Counts,
): Promise<T[]> {
  const changed: T[] = [];
  for (const chunk of chunks(rows)) {
    const known = await tx
      .selectFrom(table)
      .select(['id', 'data', 'version'])
      .where(
        'id',
        'in',
        chunk.map((r) => r.id),
      )
      .forUpdate()
      .execute();
    const before = new Map<string, { data: unknown; version: number }>(known.map((k) => [k.id, k]));
    const fresh = chunk.filter((r) => !before.has(r.id));
    if (fresh.length > 0)
      await tx
        .insertInto(table)
        .values(fresh.map(columns) as never)
        .execute();
    counts.added += fresh.length;
    for (const row of chunk) {
      const was = before.get(row.id);
      if (!was) continue;
      if (same(was.data, row)) counts.unchanged++;
      else {
        counts.changed++;
        changed.push(row);
        await tx
          .updateTable(table)
          .set({ ...columns(row), version: was.version + 1, updated_at: new Date() } as never)
          .where('id', '=', row.id)
          .execute();
      }
    }
  }
  return changed;
}

/** Rows that are never changed: one that differs becomes the next revision of the same id. */
async function revise<
  T extends { id: string },
  K extends 'measurements' | 'markers' | 'device_events' | 'skin_checks',
>(
  tx: Database,
  table: K,
  rows: readonly T[],
  recordOf: (row: never) => T,
  columns: (row: T) => object,
  by: { recorded_by: string; reason: string },
  counts: Counts,
): Promise<void> {
  for (const chunk of chunks(rows)) {
    const known = await sql<
      Selectable<Tables[K]> & { id: string; seq: string; revision: number; withdrawn: boolean }
    >`
      select distinct on (id) * from ${sql.table(table)}
      where id = any(${chunk.map((r) => r.id)}) order by id, revision desc`.execute(tx);
    const before = new Map(known.rows.map((k) => [k.id, k]));
    const next: object[] = [];
    for (const row of chunk) {
      const was = before.get(row.id);
      if (was && !was.withdrawn && same(recordOf(was as never), row)) {
        counts.unchanged++;
        continue;
      }
      was ? counts.changed++ : counts.added++;
      next.push({
        ...columns(row),
        revision: (was?.revision ?? 0) + 1,
        corrects_seq: was?.seq ?? null,
        withdrawn: false,
        recorded_by: by.recorded_by,
        reason: was ? by.reason : '',
      });
    }
    if (next.length > 0)
      await tx
        .insertInto(table)
        .values(next as never)
        .execute();
  }
}

/** Equal as stored: JSON forgets undefined fields and their order. */
const same = (a: unknown, b: unknown) =>
  isDeepStrictEqual(JSON.parse(JSON.stringify(a)), JSON.parse(JSON.stringify(b)));

/** Every device the rows name, as it is now. */
async function storedDevices(tx: Database, rows: Partial<Caseload>): Promise<Map<string, Device>> {
  const { events = [], jobs = [], skinChecks = [] } = rows;
  const ids = new Set([...events, ...jobs, ...skinChecks].flatMap((r) => r.deviceId ?? []));
  const found = new Map<string, Device>();
  for (const chunk of chunks([...ids]))
    for (const { id, data } of await tx
      .selectFrom('devices')
      .select(['id', 'data'])
      .where('id', 'in', chunk)
      .execute())
      found.set(id, data);
  return found;
}

/** When every child of the rows was born, as it is now. */
async function storedBirthDates(
  tx: Database,
  rows: Partial<Caseload>,
  devices: ReadonlyMap<string, Device>,
): Promise<Map<string, IsoDate>> {
  const { skinChecks = [] } = rows;
  const ids = new Set([...childrenIn(rows), ...[...skinChecks, ...devices.values()].map((r) => r.childId)]);
  const found = new Map<string, IsoDate>();
  for (const chunk of chunks([...ids]))
    for (const { id, data } of await tx
      .selectFrom('children')
      .select(['id', 'data'])
      .where('id', 'in', chunk)
      .execute())
      found.set(id, data.birthDate);
  return found;
}
