import { randomUUID } from 'node:crypto';
import type { IsoDate } from '../../records/dates.js';
import { type SkinCheck, skinCheckRecord } from '../../records/skin-check.js';
import type { Database } from '../connect.js';
import type { Actor, NewSkinCheck } from '../shapes.js';
import { skinChecksTable } from './caseload-tables.js';
import { addRecord, corrections, type RevisedKind } from './revised.js';

export const skinCheckKind: RevisedKind<SkinCheck> = {
  part: 'skinChecks',
  at: skinChecksTable,
  audited: ({ id, state }) => ({ skinCheckId: id, state }),
};

export const skinChecksRepository = (db: Database) => ({
  /** Throws where the device is another child's or the date is not between birth and today. */
  async add(given: NewSkinCheck, today: IsoDate, actor: Actor): Promise<SkinCheck> {
    const check = skinCheckRecord.parse({ ...given, id: randomUUID() });
    return addRecord(db, skinCheckKind, check, check.childId, today, actor);
  },
  withdraw: corrections(db, skinCheckKind).withdraw,
});
