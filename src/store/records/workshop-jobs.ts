import { refuse } from '../../records/check/refuse.js';
import { workshopJobFaults } from '../../records/check/workshop-job-faults.js';
import { type WorkshopJob, workshopJobRecord } from '../../records/device.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { refuseStale } from '../refusals.js';
import { rowsVersion } from '../rows-version.js';
import { workshopJobsTable } from './caseload-tables.js';
import { families } from './devices.js';
import { requireChild, requireDevice } from './require-child.js';

export const workshopJobsRepository = (db: Database): Store['workshopJobs'] => ({
  save: (given, today, expected, actor) =>
    atomically(db, async (tx) => {
      const job = workshopJobRecord.parse(given);
      const { childId } = (await requireDevice(tx, job.deviceId)).value;
      const { birthDate } = (await requireChild(tx, childId)).value;
      refuse(workshopJobFaults(job, { birthDate, today, families }));
      const before = await tx
        .selectFrom('workshop_jobs')
        .select('version')
        .where('id', '=', job.id)
        .forUpdate()
        .executeTakeFirst();
      refuseStale(expected, before?.version ?? 0);
      const version = (before?.version ?? 0) + 1;
      const columns = workshopJobsTable.columns(job, childId);
      await tx
        .insertInto('workshop_jobs')
        .values(columns as never)
        .onConflict((c) => c.column('id').doUpdateSet({ ...columns, version, updated_at: new Date() }))
        .execute();
      await writeAudit(tx, actor, before ? 'change' : 'create', 'workshop-job', { childId, jobId: job.id });
      return { value: job, version };
    }),

  async all() {
    const version = await rowsVersion(db, ['workshop_jobs']);
    const before = known.get(db);
    if (before?.version === version) return before.jobs;
    const rows = await db.selectFrom('workshop_jobs').select('data').orderBy('id').execute();
    const jobs = rows.map((r) => r.data);
    known.set(db, { version, jobs });
    return jobs;
  },
});

/** Every child's page asks for all jobs: they are read and parsed again only once one has changed. */
const known = new WeakMap<Database, { readonly version: string; readonly jobs: readonly WorkshopJob[] }>();
