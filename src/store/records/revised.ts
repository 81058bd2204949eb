import { sql } from 'kysely';
import { DoorpostError } from '../../errors.js';
import type { CaseloadPart } from '../../records/caseload.js';
import { caseloadFaults } from '../../records/check/caseload-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { stampOf } from '../json-rows.js';
import { changedMeanwhile, notFound, refuseStale } from '../refusals.js';
import type { Actor, AuditDetail, Expected, Versioned } from '../shapes.js';
import type { CaseloadTable, Revised, Row } from './caseload-tables.js';
import { families } from './devices.js';
import { type Lock, requireChild, requireDevice } from './require-child.js';

export interface RevisedRow extends Row {
  readonly seq: string;
  readonly id: string;
  readonly revision: number;
  readonly child_id: string;
  readonly withdrawn: boolean;
  readonly reason: string;
  readonly recorded_by: string;
  readonly recorded_at: Date | string;
}

/** A kind of record that is never changed, only corrected by its next revision. */
export interface RevisedKind<T> {
  readonly part: CaseloadPart;
  readonly at: CaseloadTable<T, Revised>;
  /** What the access log says beside the child. */
  audited(record: T): AuditDetail;
  /** What changes of its device: `after` null where it is withdrawn, `before` null where it is new. */
  follow?(tx: Database, device: Versioned<Device>, before: T | null, after: T | null): Promise<void>;
}

/** The child and the device of a record, held against other writers; what it can be and what goes with it. */
async function open<T>(tx: Database, kind: RevisedKind<T>, record: T, childId: string, lock: Lock) {
  const child = (await requireChild(tx, childId, lock)).value;
  const { deviceId } = record as { deviceId?: string | null };
  const device = deviceId ? await requireDevice(tx, deviceId, kind.follow && 'update') : null;
  return {
    refuseFaults: (given: T, today: IsoDate) =>
      refuse(
        caseloadFaults(
          { [kind.part]: [given] },
          {
            birthDateOf: () => child.birthDate,
            deviceOf: () => device?.value,
            today,
            families,
          },
        ),
      ),
    follow: async (before: T | null, after: T | null) => {
      if (device !== null) await kind.follow?.(tx, device, before, after);
    },
  };
}

/** The columns of a new record, or of the next revision of the one `before`. */
export const appended = (
  actor: Actor,
  before: Pick<RevisedRow, 'revision' | 'seq'> | null = null,
  { withdrawn = false, reason = '' }: { withdrawn?: boolean; reason?: string } = {},
) => ({
  revision: (before?.revision ?? 0) + 1,
  corrects_seq: before?.seq ?? null,
  withdrawn,
  reason,
  recorded_by: actor.name,
});

export const revisionOf = (row: RevisedRow) => ({
  revision: row.revision,
  withdrawn: row.withdrawn,
  reason: row.reason,
  by: row.recorded_by,
  at: stampOf(row.recorded_at),
});

/** Every revision of a record, the first first; refused where there is none. */
export async function allRevisions<T>(db: Database, kind: RevisedKind<T>, id: string): Promise<RevisedRow[]> {
  const { rows } = await sql<RevisedRow>`
    select * from ${sql.table(kind.at.table)} where id = ${id} order by revision`.execute(db);
  if (rows.length === 0) throw notFound(kind.at.name);
  return rows;
}

/** Adds a record of a child. */
export const addRecord = <T>(
  db: Database,
  kind: RevisedKind<T>,
  record: T,
  childId: string,
  today: IsoDate,
  actor: Actor,
): Promise<T> =>
  atomically(db, async (tx) => {
    const opened = await open(tx, kind, record, childId, 'share');
    opened.refuseFaults(record, today);
    await tx
      .insertInto(kind.at.table)
      .values({ ...kind.at.columns(record, childId), ...appended(actor) } as never)
      .execute();
    await opened.follow(null, record);
    await writeAudit(tx, actor, 'create', resourceOf(kind), { childId, ...kind.audited(record) });
    return record;
  });

const resourceOf = ({ at }: { readonly at: { readonly name: string } }) => at.name.replace(' ', '-');

/** How what was entered wrongly is put right: each correction is a new revision, and the last can be taken back. */
export function corrections<T extends object>(db: Database, kind: RevisedKind<T>) {
  const revise = (
    id: string,
    today: IsoDate,
    expected: Expected,
    actor: Actor,
    nextOf: (all: readonly RevisedRow[]) => { record: T; withdrawn: boolean; reason: string },
  ): Promise<RevisedRow> =>
    atomically(db, async (tx) => {
      const all = await allRevisions(tx, kind, id);
      const last = all.at(-1)!;
      const before = kind.at.of(last);
      const opened = await open(tx, kind, before, last.child_id, 'update');
      refuseStale(expected, last.revision);
      const { record, withdrawn, reason } = nextOf(all);
      if (!withdrawn) opened.refuseFaults(record, today);
      const columns = kind.at.columns(record, last.child_id);
      const added = await tx
        .insertInto(kind.at.table as 'markers')
        .values({ ...columns, ...appended(actor, last, { withdrawn, reason }) } as never)
        .onConflict((c) => c.doNothing())
        .returningAll()
        .executeTakeFirst();
      if (!added) throw changedMeanwhile(last.revision, last.revision + 1);
      await opened.follow(before, withdrawn ? null : record);
      await writeAudit(tx, actor, withdrawn ? 'withdraw' : 'correct', resourceOf(kind), {
        childId: last.child_id,
        ...kind.audited(record),
        revision: added.revision,
      });
      return added as unknown as RevisedRow;
    });
  return {
    /** Only what the change names; `withdrawn` takes it out. */
    correct: (
      id: string,
      { reason, withdrawn = false, ...change }: Partial<T> & { reason: string; withdrawn?: boolean },
      today: IsoDate,
      expected: Expected,
      actor: Actor,
    ) =>
      revise(id, today, expected, actor, (all) => ({
        record: { ...kind.at.of(all.at(-1)!), ...change },
        withdrawn,
        reason,
      })),
    withdraw: async (id: string, reason: string, actor: Actor) => {
      await revise(id, '', null, actor, (all) => {
        if (all.at(-1)!.withdrawn) throw notFound(kind.at.name);
        return { record: kind.at.of(all.at(-1)!), withdrawn: true, reason };
      });
    },
    undoCorrection: (id: string, today: IsoDate, actor: Actor) =>
      revise(id, today, null, actor, (all) => {
        const before = all.at(-2);
        if (!before) throw new DoorpostError('nothing-to-undo', `This ${kind.at.name} was never corrected`);
        const reason = `back to revision ${before.revision}`;
        return { record: kind.at.of(before), withdrawn: before.withdrawn, reason };
      }),
  };
}
