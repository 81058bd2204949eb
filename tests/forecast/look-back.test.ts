/**
 * What would have been forecast on a day long past. Checked against the record as it really was on that day: whatever
 * came after it may not show.
 */
import { describe, expect, it } from 'vitest';
import { lookBackDays, recordOn } from '../../src/forecast/look-back.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { markerRecord, measurementRecord } from '../../src/records/records.js';
import { skinCheckRecord } from '../../src/records/skin-check.js';
import { buildChild } from './build-record.js';

const THEN = '2025-03-03';
const LATER = addDaysIso(THEN, 1);
const { record: before } = buildChild(THEN, 8, { sex: 'female' })
  .series('foot_length', 'left', [
    [13, 184],
    [1, 189],
  ])
  .device('solid-afo', 'left', 3);
const [device] = before.devices;
const childId = before.child.id;

describe('a day long past', () => {
  it('knows nothing of what was read, seen, cast, fitted, judged or ended after it', () => {
    const event = (id: string, of: string, kind: 'verdict' | 'retired' | 'cast', date: string) =>
      deviceEventRecord.parse({
        id,
        deviceId: of,
        date,
        kind,
        verdict: kind === 'verdict' ? 'outgrown' : null,
      });
    const next = { childId, family: 'solid-afo', side: 'left', fittedDate: addDaysIso(LATER, 30) };
    const since: ChildRecord = {
      ...before,
      child: { ...before.child, status: 'discharged' },
      measurements: [
        ...before.measurements,
        measurementRecord.parse({
          id: 'm-later',
          childId,
          measure: 'foot_length',
          side: 'left',
          value: 201,
          date: LATER,
        }),
      ],
      markers: [...before.markers, markerRecord.parse({ id: 'k', childId, kind: 'menarche', date: LATER })],
      skinChecks: [
        ...before.skinChecks,
        skinCheckRecord.parse({ id: 's', childId, deviceId: device.id, date: LATER, state: 'open' }),
      ],
      devices: [
        { ...device, status: 'retired' },
        deviceRecord.parse({ ...next, id: 'being made', castDate: THEN, status: 'worn' }),
        deviceRecord.parse({ ...next, id: 'not thought of', castDate: LATER, status: 'worn' }),
      ],
      events: [
        ...before.events,
        event('e1', device.id, 'verdict', LATER),
        event('e2', device.id, 'retired', LATER),
        event('e3', 'not thought of', 'cast', LATER),
      ],
    };
    const then = recordOn(since, THEN);
    expect(then.devices[0]).toEqual(device);
    expect(then.devices.slice(1)).toEqual([{ ...since.devices[1], fittedDate: null, status: 'ordered' }]);
    expect({ ...then, devices: [device] }).toEqual({ ...before, jobs: [] });
  });

  it('takes a device that ended on the day, or nobody knows when, for one no longer worn', () => {
    const retired = { ...before, devices: [{ ...device, status: 'retired' as const }] };
    expect(recordOn(retired, THEN).devices[0].status).toBe('retired');
    const end = deviceEventRecord.parse({ id: 'e', deviceId: device.id, date: THEN, kind: 'retired' });
    expect(recordOn({ ...retired, events: [end] }, THEN).devices[0].status).toBe('retired');
    expect(recordOn({ ...retired, events: [end] }, addDaysIso(THEN, -1)).devices[0].status).toBe('worn');
  });

  it('is one on which a device was fitted, a year and a half ago or more, the last two of them', () => {
    const today = '2026-11-27';
    const fitted = ['2023-01-01', '2024-01-01', '2025-06-05', '2025-06-06'].map((fittedDate, i) => ({
      ...device,
      id: `d${i}`,
      fittedDate,
    }));
    // 540 days before 27 November 2026 is 5 June 2025.
    expect(lookBackDays({ ...before, devices: fitted }, today)).toEqual(['2024-01-01', '2025-06-05']);
  });
});
