import { refuse } from '../../records/check/refuse.js';
import { workshopJobFaults } from '../../records/check/workshop-job-faults.js';
import type { IsoDate } from '../../records/dates.js';
import { type WorkshopJob, workshopJobRecord } from '../../records/device.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { refuseStale } from '../refusals.js';
import type { Actor, Expected, Versioned } from '../shapes.js';
import { keptByStanding } from '../standing.js';
import { workshopJobsTable } from './caseload-tables.js';
import { families } from './devices.js';
import { addInPlace, changeInPlace } from './in-place.js';
import { requireChild, requireDevice } from './require-child.js';

export const workshopJobsRepository = (db: Database) => ({
  save: (
    given: WorkshopJob,
    today: IsoDate,
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<WorkshopJob>> =>
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
      const saved = before
        ? await changeInPlace(tx, workshopJobsTable, job, childId, before.version)
        : await addInPlace(tx, workshopJobsTable, job, childId);
      await writeAudit(tx, actor, before ? 'change' : 'create', 'workshop-job', { childId, jobId: job.id });
      return saved;
    }),

  all: () => all(db),
});

/** Every child's page asks for all jobs: they are read and parsed again only once one has changed. */
const all = keptByStanding('workshopJobs', async (db): Promise<readonly WorkshopJob[]> => {
  const rows = await db.selectFrom('workshop_jobs').select('data').orderBy('id').execute();
  return rows.map((r) => r.data);
});
