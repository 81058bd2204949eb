import { skinCheckFaults } from '../../records/check/skin-check-faults.js';
import type { Device } from '../../records/device.js';
import { type SkinCheck, skinCheckRecord } from '../../records/skin-check.js';
import { readFields } from './read-fields.js';
import { type ReadSettings, readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';

const OWN = ['date', 'state', 'minutes', 'where', 'side', 'cannotWarn', 'observer', 'note'] as const;

/** skin.csv: what the skin looked like when a device came off. */
export function readSkinChecks(
  text: TextTable,
  settings: ReadSettings,
  birthOf: (childId: string) => string | null,
  deviceOf: (deviceId: string) => Device | null,
): TableResult<SkinCheck> {
  return readRows('skin', text, settings, (row) => {
    const [childId, birthDate] = row.of('child', birthOf);
    const deviceId = row.upTo('device_id', 80) || null;
    const given = { childId, deviceId, ...readFields(row, 'skin', OWN) };
    const { date, state, minutes, side } = given;
    const id = row.id('s', childId, deviceId, date, state, minutes, given.where, side);
    if (row.ok && birthDate)
      row.refuseFaults(
        skinCheckFaults(given, { birthDate, device: deviceOf(deviceId ?? ''), today: settings.today }),
      );
    if (!row.ok) return [];
    const checked = skinCheckRecord.safeParse({ id, ...given });
    if (checked.success) return [checked.data];
    for (const issue of checked.error.issues)
      row.refuse(String(issue.path[0]), 'does not fit', issue.message.replace(/ is accepted$/, ''));
    return [];
  });
}
