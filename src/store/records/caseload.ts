import { groupByChild } from '../../records/caseload.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { loadCaseload } from './load-caseload.js';
import { writeCaseload } from './write-caseload.js';

const CHUNK = 1000;

export const caseloadRepository = (db: Database): Store['caseload'] => ({
  async ids(status) {
    const rows = await db
      .selectFrom('children')
      .select('id')
      .$if(status !== 'any', (q) => q.where('status', '=', 'active'))
      .orderBy('id')
      .execute();
    return rows.map((r) => r.id);
  },
  async records(ids) {
    const records = [];
    for (let i = 0; i < ids.length; i += CHUNK)
      records.push(...groupByChild(await loadCaseload(db, ids.slice(i, i + CHUNK))));
    return records;
  },
  all: () => loadCaseload(db),
  write: (rows, reason, today, actor) =>
    atomically(db, (tx) => writeCaseload(tx, rows, reason, today, actor)),
});
