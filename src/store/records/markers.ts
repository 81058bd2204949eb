import { randomUUID } from 'node:crypto';
import { markerFaults } from '../../records/check/marker-faults.js';
import type { IsoDate } from '../../records/dates.js';
import { type MaturityMarker, markerRecord } from '../../records/records.js';
import type { Database } from '../connect.js';
import type { Actor } from '../shapes.js';
import { markersTable } from './caseload-tables.js';
import { requireChild } from './require-child.js';
import { addRecord, type RevisedKind } from './revised.js';

const markerKind: RevisedKind<MaturityMarker> = {
  at: markersTable,
  name: 'marker',
  open: async (tx, _marker, childId, lock) => {
    const { birthDate } = (await requireChild(tx, childId, lock)).value;
    return { faults: (marker, today) => markerFaults(marker, birthDate, today) };
  },
  audited: ({ id, kind }) => ({ markerId: id, kind }),
};

export const markersRepository = (db: Database) => ({
  async add(given: Omit<MaturityMarker, 'id'>, today: IsoDate, actor: Actor) {
    const marker = markerRecord.parse({ ...given, id: randomUUID() });
    return addRecord(db, markerKind, marker, marker.childId, today, actor);
  },
});
