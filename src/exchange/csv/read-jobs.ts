import { dayNumber, type IsoDate } from '../../records/dates.js';
import { type StageId, stageIds, type WorkshopJob } from '../../records/device.js';
import { contentId, type ReadSettings, readRows, type TableResult, uniqueId } from './read-rows.js';
import type { TextTable } from './read-table.js';

/** jobs.csv: when each stage of making a device was done. */
export function readJobs(
  text: TextTable,
  settings: ReadSettings,
  familyOf: (deviceId: string) => string | null,
): TableResult<WorkshopJob> {
  const used = new Set<string>();
  return readRows('jobs', text, settings, (row) => {
    const deviceId = row.required('device_id');
    const deviceFamily = familyOf(deviceId);
    if (deviceId !== '' && deviceFamily === null)
      row.refuse('device_id', 'is not the id of a device that was taken');
    const stages: Partial<Record<StageId, IsoDate>> = {};
    let latest: { stage: StageId; date: IsoDate } | null = null;
    for (const stage of stageIds) {
      const date = row.date(stage);
      if (date === null) continue;
      if (latest && dayNumber(date) < dayNumber(latest.date)) {
        row.refuse(stage, `lies before the stage ${latest.stage} of ${latest.date}`);
      }
      stages[stage] = date;
      latest = { stage, date };
    }
    const job = {
      id: row.upTo('id', 80) || uniqueId(used, contentId('j', deviceId, stages.cast ?? null)),
      deviceId,
      family: row.oneOf('family', [...settings.rules.keys()], deviceFamily ?? ''),
      stages,
      status: row.oneOf(
        'status',
        ['in-progress', 'fitted', 'cancelled'],
        stages.fit ? 'fitted' : 'in-progress',
      ),
    } satisfies WorkshopJob;
    return row.ok ? [job] : [];
  });
}
