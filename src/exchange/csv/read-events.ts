import { eventFaults } from '../../records/check/event-faults.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { readFields } from './read-fields.js';
import { contentId, type ReadSettings, readRows, type TableResult, uniqueId } from './read-rows.js';
import type { TextTable } from './read-table.js';

const OWN = [
  'date',
  'kind',
  'measure',
  'side',
  'changeMm',
  'adjustment',
  'verdict',
  'hipAngleLeft',
  'hipAngleRight',
  'endReason',
  'note',
] as const;

/** events.csv: what happened to a device, and what a clinician judged of its fit. */
export function readEvents(
  text: TextTable,
  settings: ReadSettings,
  deviceOf: (deviceId: string) => Device | null,
): TableResult<DeviceEvent> {
  const used = new Set<string>();
  return readRows('events', text, settings, (row) => {
    const [deviceId, device] = row.of('device', deviceOf);
    const own = readFields(row, 'events', OWN);
    const { date, kind, measure, side, changeMm, adjustment, verdict } = own;
    const event = {
      id:
        row.upTo('id', 80) ||
        uniqueId(used, contentId('e', deviceId, date, kind, measure, side, changeMm, adjustment, verdict)),
      deviceId,
      ...own,
    } satisfies DeviceEvent;
    if (row.ok && device)
      row.refuseFaults(eventFaults(event, { device, today: settings.today, families: settings.families }));
    return row.ok ? [event] : [];
  });
}
