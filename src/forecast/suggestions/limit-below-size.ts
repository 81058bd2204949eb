import type { ChildRecord } from '../../records/caseload.js';
import { daysBetween } from '../../records/dates.js';
import { deviceHistory } from '../../records/device-history.js';
import { type MeasureId, measures } from '../../records/measure.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, wholeMm } from '../words.js';

/** A measurement counts for a cast when taken within this many days of it. */
const NEAR_DAYS = 60;

/** A device whose stated limit is below the size measured at its own cast: one of the two is wrong. */
export function limitBelowSizeSuggestions(record: ChildRecord): DataSuggestion[] {
  return record.devices.flatMap((device) => {
    const { castDate } = deviceHistory(device, record.events);
    return Object.entries(device.limitsMm).flatMap(([id, limitMm]): DataSuggestion[] => {
      const measure = id as MeasureId;
      const near = record.measurements
        .filter(
          (m) =>
            m.measure === measure && (device.side === 'both' || m.side === 'none' || m.side === device.side),
        )
        .filter((m) => Math.abs(daysBetween(castDate, m.date)) <= NEAR_DAYS)
        .sort((a, b) => Math.abs(daysBetween(castDate, a.date)) - Math.abs(daysBetween(castDate, b.date)))[0];
      if (!near || limitMm === undefined || limitMm >= near.value) return [];
      return [
        {
          id: `limit-below-size-${device.id}-${measure}`,
          childId: record.child.id,
          kind: 'limit-below-size',
          measurementIds: [near.id],
          deviceId: device.id,
          seen: `The device is said to take ${measures[measure].label.toLowerCase()} up to ${wholeMm(limitMm)}, but ${wholeMm(near.value)} was measured about its cast, on ${plainDate(near.date)}.`,
          corrections: [],
          action:
            'Check the limit on the device (unit, dimension) and the reading; correct the one that is wrong.',
        },
      ];
    });
  });
}
