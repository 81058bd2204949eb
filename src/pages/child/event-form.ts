import { adjustmentKinds, type Device, type DeviceEvent } from '../../records/device.js';
import { measures } from '../../records/measure.js';
import { newEvent } from '../../service/api/schemas/records.js';
import type { Fields } from '../parts/route-types.js';
import { typedRecord } from '../parts/typed-record.js';

export const adjustments = [...adjustmentKinds, 'other'] as const;

/** A submitted event form as an event; throws with field, value and what would be accepted. */
export function readEvent(body: Fields, device: Pick<Device, 'id' | 'side'>): Omit<DeviceEvent, 'id'> {
  const event = typedRecord(newEvent, body);
  const { kind, measure, side, endReason } = event;
  return {
    ...event,
    deviceId: device.id,
    side: sideOf(side, measure !== null && measures[measure].sided, device.side),
    // The form asks it of whatever ended; it is said of what was retired alone.
    endReason: kind === 'retired' ? endReason : null,
  };
}

/** A device of one side is judged on that side; a frame of both on the side said, or as a whole. */
function sideOf(given: DeviceEvent['side'], sided: boolean, device: Device['side']): 'left' | 'right' | null {
  if (!sided) return null;
  if (device === 'left' || device === 'right') return device;
  return given === 'left' || given === 'right' ? given : null;
}
