import { eventFaults } from '../../records/check/event-faults.js';
import { type Device, type DeviceEvent, deviceEventRecord, endReasons } from '../../records/device.js';
import { measureIds, sides } from '../../records/measure.js';
import { LONGEST_NOTE } from '../../records/records.js';
import { contentId, type ReadSettings, readRows, type TableResult, uniqueId } from './read-rows.js';
import type { TextTable } from './read-table.js';

const kinds = deviceEventRecord.shape.kind.options;
const adjustments = deviceEventRecord.shape.adjustment.unwrap().unwrap().options;
const verdicts = deviceEventRecord.shape.verdict.unwrap().unwrap().options;

/** events.csv: what happened to a device, and what a clinician judged of its fit. */
export function readEvents(
  text: TextTable,
  settings: ReadSettings,
  deviceOf: (deviceId: string) => Device | null,
): TableResult<DeviceEvent> {
  const used = new Set<string>();
  return readRows('events', text, settings, (row) => {
    const deviceId = row.required('device_id');
    const device = deviceOf(deviceId);
    if (deviceId !== '' && device === null)
      row.refuse('device_id', 'is not the id of a device that was taken');
    const date = row.requiredDate('date');
    const kind = row.oneOf('kind', kinds, null);
    if (kind === null && row.text('kind') === '') row.refuse('kind', 'is missing');
    const measure = row.oneOf('measure', measureIds, null);
    const verdict = row.oneOf('verdict', verdicts, null);
    const side = row.text('side') === '' ? null : row.oneOf('side', sides, null, { l: 'left', r: 'right' });
    const changeMm = row.number('change_mm');
    const adjustment = row.oneOf('adjustment', adjustments, null);
    const endReason = row.oneOf('end_reason', endReasons, null);
    const event = {
      id:
        row.upTo('id', 80) ||
        uniqueId(used, contentId('e', deviceId, date, kind, measure, side, changeMm, adjustment, verdict)),
      deviceId,
      date: date ?? '',
      kind: kind ?? 'verdict',
      measure,
      side,
      changeMm,
      adjustment,
      verdict,
      endReason,
      note: row.upTo('note', LONGEST_NOTE),
    } satisfies DeviceEvent;
    if (row.ok && device)
      row.refuseFaults(eventFaults(event, { device, today: settings.today, families: settings.families }));
    return row.ok ? [event] : [];
  });
}
