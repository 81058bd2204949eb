import { workshopJobFaults } from '../../records/check/workshop-job-faults.js';
import type { IsoDate } from '../../records/dates.js';
import { type Device, type StageId, stageIds, type WorkshopJob } from '../../records/device.js';
import { type ReadSettings, readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';
import type { RowReader } from './row-reader.js';

function readStages(row: RowReader): Partial<Record<StageId, IsoDate>> {
  const dates = stageIds.map((stage) => [stage, row.date(stage)] as const);
  return Object.fromEntries(dates.filter(([, date]) => date !== null));
}

/** jobs.csv: when each stage of making a device was done. */
export function readJobs(
  text: TextTable,
  settings: ReadSettings,
  birthOf: (childId: string) => IsoDate | null,
  deviceOf: (deviceId: string) => Device | null,
): TableResult<WorkshopJob> {
  return readRows('jobs', text, settings, (row) => {
    const [deviceId, device] = row.of('device', deviceOf);
    const stages = readStages(row);
    const job = {
      id: row.id('j', deviceId, stages.cast ?? null),
      deviceId,
      family: row.oneOf('family', [...settings.rules.keys()], device?.family ?? ''),
      stages,
      status: row.oneOf(
        'status',
        ['in-progress', 'fitted', 'cancelled'],
        stages.fit ? 'fitted' : 'in-progress',
      ),
    } satisfies WorkshopJob;
    const birthDate = birthOf(device?.childId ?? '');
    if (row.ok && birthDate)
      row.refuseFaults(
        workshopJobFaults(job, { birthDate, today: settings.today, families: settings.families }),
      );
    return row.ok ? [job] : [];
  });
}
