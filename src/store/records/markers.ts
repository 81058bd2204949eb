import { randomUUID } from 'node:crypto';
import type { IsoDate } from '../../records/dates.js';
import { type MaturityMarker, markerRecord } from '../../records/records.js';
import type { Database } from '../connect.js';
import type { Actor } from '../shapes.js';
import { markersTable } from './caseload-tables.js';
import { addRecord, type RevisedKind } from './revised.js';

const markerKind: RevisedKind<MaturityMarker> = {
  part: 'markers',
  at: markersTable,
  audited: ({ id, kind }) => ({ markerId: id, kind }),
};

export const markersRepository = (db: Database) => ({
  async add(given: Omit<MaturityMarker, 'id'>, today: IsoDate, actor: Actor) {
    const marker = markerRecord.parse({ ...given, id: randomUUID() });
    return addRecord(db, markerKind, marker, marker.childId, today, actor);
  },
});
