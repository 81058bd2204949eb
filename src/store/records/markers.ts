import { randomUUID } from 'node:crypto';
import { markerFaults } from '../../records/check/marker-faults.js';
import { refuse } from '../../records/check/refuse.js';
import { markerRecord } from '../../records/records.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import { appended } from './appended.js';
import { requireChild } from './require-child.js';
import { markerColumns } from './row-records.js';

export const markersRepository = (db: Database): Store['markers'] => ({
  add: (given, today, actor) =>
    atomically(db, async (tx) => {
      const marker = markerRecord.parse({ ...given, id: randomUUID() });
      const child = await requireChild(tx, marker.childId, 'share');
      refuse(markerFaults(marker, child.value.birthDate, today));
      await tx
        .insertInto('markers')
        .values({ ...markerColumns(marker), ...appended(actor) })
        .execute();
      await writeAudit(tx, actor, 'create', 'marker', {
        childId: marker.childId,
        markerId: marker.id,
        kind: marker.kind,
      });
      return marker;
    }),
});
