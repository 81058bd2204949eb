import { readNumber } from '../../exchange/csv/read-number.js';
import {
  adjustmentKinds,
  type Device,
  type DeviceEvent,
  endReasons,
  verdicts,
} from '../../records/device.js';
import { measureIds, measures } from '../../records/measure.js';
import { LONGEST_NOTE } from '../../records/records.js';
import { oneOf, typedDay } from '../parts/cannot-be.js';
import type { Fields } from '../parts/route-types.js';

/** What can be recorded of a device in use. */
export const recordedKinds = [
  'delivered',
  'adjusted',
  're-cast',
  'broken',
  'lost',
  'retired',
  'verdict',
] as const;
export const adjustments = [...adjustmentKinds, 'other'] as const;

/** A submitted event form as an event; throws with field, value and what would be accepted. */
export function readEvent(body: Fields, device: Pick<Device, 'id' | 'side'>): Omit<DeviceEvent, 'id'> {
  const kind = oneOf('kind', body.kind, recordedKinds);
  const date = typedDay('date', body.date);
  const measure = body.measure ? oneOf('measure', body.measure, measureIds) : null;
  const change = body.change?.trim() ? readNumber(body.change.replace(/\s*mm$/i, '')) : null;
  const adjusted = kind === 'adjusted';
  return {
    deviceId: device.id,
    date,
    kind,
    measure,
    side: sideOf(body.side, measure !== null && measures[measure].sided, device.side),
    changeMm: adjusted ? change : null,
    adjustment: adjusted ? (adjustments.find((a) => a === body.adjustment) ?? 'other') : null,
    verdict: kind === 'verdict' && body.verdict ? oneOf('verdict', body.verdict, verdicts) : null,
    endReason: kind === 'retired' ? (endReasons.find((r) => r === body.endReason) ?? null) : null,
    note: (body.note ?? '').slice(0, LONGEST_NOTE),
  };
}

/** A device of one side is judged on that side; a frame of both on the side said, or as a whole. */
function sideOf(given: string | undefined, sided: boolean, device: Device['side']): 'left' | 'right' | null {
  if (!sided) return null;
  if (device === 'left' || device === 'right') return device;
  return given === 'left' || given === 'right' ? given : null;
}
