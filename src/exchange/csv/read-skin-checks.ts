import { skinCheckFaults } from '../../records/check/skin-check-faults.js';
import type { Device } from '../../records/device.js';
import { sides } from '../../records/measure.js';
import { LONGEST_NOTE } from '../../records/records.js';
import { type SkinCheck, skinCheckRecord, skinStates } from '../../records/skin-check.js';
import { contentId, type ReadSettings, readRows, type TableResult, uniqueId } from './read-rows.js';
import type { TextTable } from './read-table.js';

/** skin.csv: what the skin looked like when a device came off. */
export function readSkinChecks(
  text: TextTable,
  settings: ReadSettings,
  birthOf: (childId: string) => string | null,
  deviceOf: (deviceId: string) => Device | null,
): TableResult<SkinCheck> {
  const used = new Set<string>();
  return readRows('skin', text, settings, (row) => {
    const childId = row.required('child_id');
    const birthDate = birthOf(childId);
    if (childId !== '' && birthDate === null)
      row.refuse('child_id', 'is not the id of a child that was taken');
    const deviceId = row.upTo('device_id', 80) || null;
    const date = row.requiredDate('date');
    if (row.text('state') === '') row.refuse('state', 'is missing');
    // 'none' is a word of this column, not an empty cell.
    const state = row.oneOf('state', skinStates, null);
    const side = row.text('side') === '' ? null : row.oneOf('side', sides, null, { l: 'left', r: 'right' });
    const minutes = row.number('minutes');
    const given = {
      childId,
      deviceId,
      date: date ?? '',
      state: state ?? 'none',
      minutes,
      where: row.upTo('where', 120),
      side,
      cannotWarn: row.yesNo('cannot_warn'),
      observer: row.upTo('observer', 80),
      note: row.upTo('note', LONGEST_NOTE),
    };
    const id =
      row.upTo('id', 80) ||
      uniqueId(used, contentId('s', childId, deviceId, date, state, minutes, given.where, side));
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
