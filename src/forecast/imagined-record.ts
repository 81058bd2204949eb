import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import { type Device, type DeviceEvent, deviceEventRecord } from '../records/device.js';
import type { MeasureId, Series } from '../records/measure.js';
import { measurementRecord } from '../records/records.js';

/** Several things at once that somebody may do on one day, without doing them. */
export interface Imagined {
  readonly on: IsoDate;
  /** 'keep': the present device with room gained by hand; 'new-cast': another of its kind, cast on that day. */
  readonly how: 'keep' | 'new-cast';
  /** 'keep': room gained; 'new-cast': room from the cast. mm by dimension; the others stay, or take the family's usual. */
  readonly roomMm: Readonly<Partial<Record<MeasureId, number>>>;
  /** Readings of a visit on that day, in the measure's unit. */
  readonly readings: readonly { readonly series: Series; readonly value: number }[];
}

export const isImagined = (id: string): boolean => id.startsWith(PREFIX);
const PREFIX = 'imagined ';

/**
 * The record as it would stand at the end of that day. It is assessed as any record is, with `today` = `on`; nothing of
 * it is kept. Room gained counts as accepted wearable on that day, as a recorded adjustment does.
 */
export function imaginedRecord(record: ChildRecord, device: Device, imagined: Imagined): ChildRecord {
  const { on, how, roomMm, readings } = imagined;
  const measurements = readings.map(({ series, value }) =>
    measurementRecord.parse({
      id: `${PREFIX}${series.measure} ${series.side}`,
      childId: record.child.id,
      ...series,
      value,
      date: on,
    }),
  );
  const recast: Device = {
    ...device,
    castDate: on,
    fittedDate: on,
    status: 'worn',
    allowancesMm: { ...device.allowancesMm, ...roomMm },
    // A size the maker stated was the old device's.
    limitsMm: {},
  };
  const gains = Object.entries(roomMm).map(
    ([measure, changeMm]): DeviceEvent =>
      deviceEventRecord.parse({
        id: `${PREFIX}${measure}`,
        deviceId: device.id,
        date: on,
        kind: 'adjusted',
        measure,
        changeMm,
        adjustment: 'other',
      }),
  );
  const isNew = how === 'new-cast';
  return {
    ...record,
    measurements: [...record.measurements, ...measurements],
    devices: record.devices.map((d) => (isNew && d.id === device.id ? recast : d)),
    events: isNew ? record.events.filter((e) => e.deviceId !== device.id) : [...record.events, ...gains],
  };
}
