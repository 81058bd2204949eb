import { eventFaults } from '../../records/check/event-faults.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { readFields } from './read-fields.js';
import { type ReadSettings, readRows, type TableResult } from './read-rows.js';
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
  return readRows('events', text, settings, (row) => {
    const [deviceId, device] = row.of('device', deviceOf);
    const own = readFields(row, 'events', OWN);
    const { date, kind, measure, side, changeMm, adjustment, verdict } = own;
    const event = {
      id: row.id('e', deviceId, date, kind, measure, side, changeMm, adjustment, verdict),
      deviceId,
      ...own,
    } satisfies DeviceEvent;
    if (row.ok && device)
      row.refuseFaults(eventFaults(event, { device, today: settings.today, families: settings.families }));
    return row.ok ? [event] : [];
  });
}
