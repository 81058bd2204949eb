import { randomUUID } from 'node:crypto';
import { refuse } from '../../records/check/refuse.js';
import { skinCheckFaults } from '../../records/check/skin-check-faults.js';
import { skinCheckRecord } from '../../records/skin-check.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import { appended } from './appended.js';
import { notFound, requireChild } from './require-child.js';
import { requireDevice } from './require-device.js';
import { skinCheckColumns, skinCheckOf } from './row-records.js';

export const skinChecksRepository = (db: Database): Store['skinChecks'] => ({
  add: (given, today, actor) =>
    atomically(db, async (tx) => {
      const check = skinCheckRecord.parse({ ...given, id: randomUUID() });
      const child = await requireChild(tx, check.childId, 'share');
      const device = check.deviceId === null ? null : (await requireDevice(tx, check.deviceId)).data;
      refuse(skinCheckFaults(check, { birthDate: child.value.birthDate, device, today }));
      await tx
        .insertInto('skin_checks')
        .values({ ...skinCheckColumns(check), ...appended(actor) })
        .execute();
      await writeAudit(tx, actor, 'create', 'skin-check', {
        childId: check.childId,
        skinCheckId: check.id,
        state: check.state,
      });
      return check;
    }),

  withdraw: (skinCheckId, reason, actor) =>
    atomically(db, async (tx) => {
      const last = await tx
        .selectFrom('current_skin_checks')
        .selectAll()
        .where('id', '=', skinCheckId)
        .executeTakeFirst();
      if (!last) throw notFound('skin check');
      await tx
        .insertInto('skin_checks')
        .values({
          ...skinCheckColumns(skinCheckOf(last)),
          ...appended(actor, last, { withdrawn: true, reason }),
        })
        .execute();
      await writeAudit(tx, actor, 'withdraw', 'skin-check', { childId: last.child_id, skinCheckId });
    }),
});
