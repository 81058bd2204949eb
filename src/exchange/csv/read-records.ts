import type { Caseload } from '../../records/caseload.js';
import { caseloadFaults } from '../../records/check/caseload-faults.js';
import { markerValues } from '../../records/check/marker-faults.js';
import { type DeviceEvent, stageIds, type WorkshopJob } from '../../records/device.js';
import type { MaturityMarker } from '../../records/records.js';
import { type SkinCheck, skinCheckRecord } from '../../records/skin-check.js';
import { readFields } from './read-fields.js';
import { readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';
import type { ReadSettings, RowReader } from './row-reader.js';

type Reader<T> = (text: TextTable, settings: ReadSettings) => TableResult<T>;

/** Readers of the tables whose rows are a record each; every record meets the check of its kind. */
const recordReader =
  <P extends 'markers' | 'events' | 'skinChecks' | 'jobs'>(
    part: P,
    recordOf: (row: RowReader, settings: ReadSettings) => Caseload[P][number],
  ): Reader<Caseload[P][number]> =>
  (text, settings) =>
    readRows(part === 'skinChecks' ? 'skin' : part, text, settings, (row) => {
      const record = recordOf(row, settings);
      if (row.ok) row.refuseFaults(caseloadFaults({ [part]: [record] }, settings));
      return row.ok ? [record] : [];
    });

/** markers.csv: signs of how mature a child is. */
export const readMarkers = recordReader('markers', (row): MaturityMarker => {
  const [childId] = row.child();
  const own = readFields(row, 'markers', ['date', 'kind', 'sdYears']);
  const { date, kind } = own;
  const value = row.number('value');
  if (markerValues[kind] && row.text('value') === '') row.refuse('value', `is missing from a ${kind}`);
  return { id: row.id('k', childId, date, kind, value), childId, ...own, value: value ?? 0 };
});

/** events.csv: what happened to a device, and what a clinician judged of its fit. */
export const readEvents = recordReader('events', (row): DeviceEvent => {
  const [deviceId] = row.device();
  const own = readFields(row, 'events', [
    ...(['date', 'kind', 'measure', 'side', 'changeMm', 'adjustment', 'verdict'] as const),
    ...(['hipAngleLeft', 'hipAngleRight', 'endReason', 'note'] as const),
  ]);
  const { date, kind, measure, side, changeMm, adjustment, verdict } = own;
  const id = row.id('e', deviceId, date, kind, measure, side, changeMm, adjustment, verdict);
  return { id, deviceId, ...own };
});

/** skin.csv: what the skin looked like when a device came off. */
export const readSkinChecks = recordReader('skinChecks', (row): SkinCheck => {
  const [childId] = row.child();
  const deviceId = row.upTo('device_id', 80) || null;
  const own = readFields(row, 'skin', [
    ...(['date', 'state', 'minutes', 'where', 'side', 'cannotWarn', 'observer', 'note'] as const),
  ]);
  const { date, state, minutes, where, side } = own;
  const id = row.id('s', childId, deviceId, date, state, minutes, where, side);
  const check = { id, childId, deviceId, ...own };
  if (row.ok)
    for (const { path, message } of skinCheckRecord.safeParse(check).error?.issues ?? [])
      row.refuse(String(path[0]), 'does not fit', message.replace(/ is accepted$/, ''));
  return check;
});

/** jobs.csv: when each stage of making a device was done. */
export const readJobs = recordReader('jobs', (row, { rules }): WorkshopJob => {
  const [deviceId, device] = row.device();
  const dates = stageIds.map((stage) => [stage, row.date(stage)] as const);
  const stages: WorkshopJob['stages'] = Object.fromEntries(dates.filter(([, date]) => date !== null));
  const status = stages.fit ? 'fitted' : 'in-progress';
  return {
    id: row.id('j', deviceId, stages.cast ?? null),
    deviceId,
    family: row.oneOf('family', [...rules.keys()], device?.family ?? ''),
    stages,
    status: row.oneOf('status', ['in-progress', 'fitted', 'cancelled'], status),
  };
});
