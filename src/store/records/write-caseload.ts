import { isDeepStrictEqual } from 'node:util';
import { sql } from 'kysely';
import { type Caseload, childrenIn } from '../../records/caseload.js';
import { caseloadFaults } from '../../records/check/caseload-faults.js';
import { childFaults } from '../../records/check/child-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { Actor } from '../shapes.js';
import {
  type CaseloadTable,
  childrenTable,
  devicesTable,
  eventsTable,
  type InPlace,
  markersTable,
  measurementsTable,
  type Revised,
  skinChecksTable,
  workshopJobsTable,
} from './caseload-tables.js';
import { firstEntries, refuseTombstone } from './children.js';
import { families } from './devices.js';
import { changeInPlace } from './in-place.js';
import { appended, type RevisedRow } from './revised.js';

/** Rows a statement: 500 x 15 columns stays far below PostgreSQL's 65,535 parameters. */
const CHUNK = 500;

/**
 * Adds what is new and changes what differs, by id; must run in a transaction, for what cannot be is refused after the
 * rows it is checked against are written. See Store.caseload.write.
 */
export async function writeCaseload(
  tx: Database,
  parts: AsyncIterable<Partial<Caseload>> | Iterable<Partial<Caseload>>,
  reason: string,
  today: IsoDate,
  actor: Actor,
): Promise<Counts> {
  const counts = { added: 0, changed: 0, unchanged: 0 };
  await sql`select pg_advisory_xact_lock(hashtext('doorpost-write-caseload'))`.execute(tx);
  const childIds = new Set<string>();
  const changed: Child[] = [];
  for await (const rows of parts) {
    changed.push(...(await writePart(tx, rows, { actor, reason }, today, counts)));
    for (const id of childrenIn(rows)) childIds.add(id);
  }
  const firstEntry = await firstEntries(
    tx,
    changed.map(({ id }) => id),
  );
  for (const child of changed) refuse(childFaults(child, today, firstEntry.get(child.id)));
  await writeAudit(tx, actor, 'import', 'caseload', { childIds: [...childIds], ...counts, reason });
  return counts;
}

/** Which children were changed comes back. */
async function writePart(
  tx: Database,
  rows: Partial<Caseload>,
  by: { actor: Actor; reason: string },
  today: IsoDate,
  counts: Counts,
): Promise<Child[]> {
  const {
    children = [],
    devices = [],
    jobs = [],
    measurements = [],
    skinChecks = [],
    markers = [],
    events = [],
  } = rows;
  for (const chunk of chunks(children))
    await refuseTombstone(
      tx,
      chunk.map((c) => c.id),
    );
  const changed = await upsert(tx, childrenTable, children, ({ id }) => id, counts);
  await upsert(tx, devicesTable, devices, childIdOf, counts);
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
  const childOfDevice = (row: { deviceId: string }) => deviceOf.get(row.deviceId)!.childId;
  await upsert(tx, workshopJobsTable, jobs, childOfDevice, counts);
  await revise(tx, measurementsTable, measurements, childIdOf, by, counts);
  await revise(tx, skinChecksTable, skinChecks, childIdOf, by, counts);
  await revise(tx, markersTable, markers, childIdOf, by, counts);
  await revise(tx, eventsTable, events, childOfDevice, by, counts);
  return changed;
}

type Counts = { added: number; changed: number; unchanged: number };

function* chunks<T>(rows: readonly T[]): Generator<T[]> {
  for (let i = 0; i < rows.length; i += CHUNK) yield rows.slice(i, i + CHUNK);
}

const childIdOf = (row: { childId: string }) => row.childId;

/** Rows that change in place; which of them were changed comes back. */
async function upsert<T extends { id: string }>(
  tx: Database,
  at: CaseloadTable<T, InPlace>,
  rows: readonly T[],
  childOf: (row: T) => string,
  counts: Counts,
): Promise<T[]> {
  const changed: T[] = [];
  for (const chunk of chunks(rows)) {
    const known = await tx
      .selectFrom(at.table)
      .select(['id', 'data', 'version'])
      .where(
        'id',
        'in',
        chunk.map((r) => r.id),
      )
      .forUpdate()
      .execute();
    const before = new Map<string, { data: unknown; version: number }>(known.map((k) => [k.id, k]));
    const fresh = chunk.filter((r) => !before.has(r.id)).map((r) => at.columns(r, childOf(r)));
    if (fresh.length > 0)
      await tx
        .insertInto(at.table)
        .values(fresh as never)
        .execute();
    counts.added += fresh.length;
    for (const row of chunk) {
      const was = before.get(row.id);
      if (!was) continue;
      if (same(was.data, row)) counts.unchanged++;
      else {
        counts.changed++;
        changed.push(row);
        await changeInPlace(tx, at, row, childOf(row), was.version);
      }
    }
  }
  return changed;
}

/** Rows that are never changed: one that differs becomes the next revision of the same id. */
async function revise<T extends { id: string }>(
  tx: Database,
  at: CaseloadTable<T, Revised>,
  rows: readonly T[],
  childOf: (row: T) => string,
  { actor, reason }: { actor: Actor; reason: string },
  counts: Counts,
): Promise<void> {
  for (const chunk of chunks(rows)) {
    const known = await sql<RevisedRow>`select distinct on (id) * from ${sql.table(at.table)}
      where id = any(${chunk.map((r) => r.id)}) order by id, revision desc`.execute(tx);
    const before = new Map(known.rows.map((k) => [k.id, k]));
    const next = chunk.flatMap((row) => {
      const was = before.get(row.id);
      if (was && !was.withdrawn && same(at.of(was), row)) {
        counts.unchanged++;
        return [];
      }
      was ? counts.changed++ : counts.added++;
      return [{ ...at.columns(row, childOf(row)), ...appended(actor, was, { reason: was ? reason : '' }) }];
    });
    if (next.length > 0)
      await tx
        .insertInto(at.table)
        .values(next as never)
        .execute();
  }
}

/** Equal as stored: JSON forgets undefined fields and their order. */
const same = (a: unknown, b: unknown) =>
  isDeepStrictEqual(JSON.parse(JSON.stringify(a)), JSON.parse(JSON.stringify(b)));

/** Every device the rows name, as it is now. */
function storedDevices(tx: Database, rows: Partial<Caseload>): Promise<Map<string, Device>> {
  const { events = [], jobs = [], skinChecks = [] } = rows;
  return stored(
    tx,
    devicesTable,
    [...events, ...jobs, ...skinChecks].flatMap((r) => r.deviceId ?? []),
  );
}

/** When every child of the rows was born, as it is now. */
async function storedBirthDates(
  tx: Database,
  rows: Partial<Caseload>,
  devices: ReadonlyMap<string, Device>,
): Promise<Map<string, IsoDate>> {
  const named = [...(rows.skinChecks ?? []), ...devices.values()].map(childIdOf);
  const children = await stored(tx, childrenTable, [...childrenIn(rows), ...named]);
  return new Map([...children].map(([id, { birthDate }]) => [id, birthDate]));
}

async function stored<T extends { id: string }>(
  tx: Database,
  at: CaseloadTable<T, InPlace>,
  ids: readonly string[],
): Promise<Map<string, T>> {
  const found = new Map<string, T>();
  for (const chunk of chunks([...new Set(ids)])) {
    const rows = await tx.selectFrom(at.table).select(['id', 'data']).where('id', 'in', chunk).execute();
    for (const row of rows) found.set(row.id, at.of({ ...row }));
  }
  return found;
}
