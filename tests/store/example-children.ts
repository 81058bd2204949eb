import type { Caseload } from '../../src/records/caseload.js';
import { deviceEventRecord, deviceRecord, workshopJobRecord } from '../../src/records/device.js';
import { childRecord, markerRecord, measurementRecord } from '../../src/records/records.js';
import { skinCheckRecord } from '../../src/records/skin-check.js';

/** A tiny invented caseload: `n` children with two visits and one device each, ids 'c0', 'c1' ... */
export function exampleCaseload(n: number, prefix = 'c'): Caseload {
  const ids = Array.from({ length: n }, (_, i) => `${prefix}${i}`);
  return {
    children: ids.map((id, i) =>
      childRecord.parse({
        id,
        name: `Invented Child ${id}`,
        birthDate: '2018-03-01',
        sex: i % 2 ? 'female' : 'male',
        conditions: ['cerebral-palsy'],
        contact: `call ${id}`,
      }),
    ),
    measurements: ids.flatMap((id) =>
      ['2025-06-02', '2026-01-12'].flatMap((date, visit) =>
        (['left', 'right'] as const).map((side) =>
          measurementRecord.parse({
            id: `${id}-m${visit}${side}`,
            childId: id,
            measure: 'foot_length',
            side,
            value: 178 + 6 * visit + (side === 'left' ? 0 : 1),
            date,
            entered: '17,8 cm',
            extra: { room: 'blue' },
          }),
        ),
      ),
    ),
    markers: ids.map((id) =>
      markerRecord.parse({ id: `${id}-k`, childId: id, date: '2026-01-12', kind: 'bone-age', value: 7.5 }),
    ),
    skinChecks: ids.map((id) =>
      skinCheckRecord.parse({
        id: `${id}-s`,
        childId: id,
        deviceId: `${id}-d`,
        date: '2026-01-12',
        state: 'fades',
        minutes: 10,
        where: 'medial malleolus',
        side: 'left',
      }),
    ),
    devices: ids.map((id) =>
      deviceRecord.parse({
        id: `${id}-d`,
        childId: id,
        family: 'solid-afo',
        side: 'left',
        castDate: '2025-06-02',
        fittedDate: '2025-06-23',
      }),
    ),
    events: ids.map((id) =>
      deviceEventRecord.parse({ id: `${id}-e`, deviceId: `${id}-d`, date: '2025-06-23', kind: 'delivered' }),
    ),
    jobs: ids.map((id) =>
      workshopJobRecord.parse({
        id: `${id}-j`,
        deviceId: `${id}-d`,
        family: 'solid-afo',
        stages: { cast: '2025-06-02', fit: '2025-06-23' },
        status: 'fitted',
      }),
    ),
  };
}
