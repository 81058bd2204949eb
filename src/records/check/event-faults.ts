import type { IsoDate } from '../dates.js';
import type { Device, DeviceEvent } from '../device.js';
import { saysOfFit } from '../hip-angle.js';
import { measures } from '../measure.js';
import { type Families, MOST_ROOM_MM } from './device-faults.js';
import { dateFaults, type Fault, rangeFaults } from './refuse.js';

export interface EventContext {
  readonly device: Pick<Device, 'family' | 'side' | 'castDate'>;
  readonly today: IsoDate;
  readonly families: Families;
}

export function* eventFaults(
  event: Omit<DeviceEvent, 'id' | 'deviceId' | 'adjustment'>,
  { device, today, families }: EventContext,
): Generator<Fault> {
  const what = `Event ${event.kind}`;
  yield* dateFaults(what, 'date', event.date, { from: device.castDate, since: 'the cast', today });
  if (event.kind === 'verdict' && !saysOfFit(event))
    yield {
      what,
      field: 'verdict',
      given: 'nothing',
      accepted: 'loose, good, tight or outgrown, an angle or a note',
    };
  for (const field of ['hipAngleLeft', 'hipAngleRight'] as const)
    if (event.kind !== 'verdict' && (event[field] ?? null) !== null)
      yield { what, field, given: String(event[field]), accepted: 'nothing but with verdict' };
  if (event.endReason && event.kind !== 'retired')
    yield { what, field: 'endReason', given: event.endReason, accepted: 'nothing but with retired' };
  if (event.changeMm !== null)
    yield* rangeFaults(what, 'changeMm', event.changeMm, [-MOST_ROOM_MM, MOST_ROOM_MM], 'mm');
  const limiting = families.get(device.family)?.measures;
  if (event.measure !== null && limiting && !limiting.includes(event.measure))
    yield {
      what,
      field: 'measure',
      given: event.measure,
      accepted: `what limits a ${device.family}: ${limiting.join(', ')}`,
    };
  yield* sideFaults(what, event, device);
}

/** A side is that of the device; a measure of the whole body has none. */
function* sideFaults(
  what: string,
  { measure, side }: Pick<DeviceEvent, 'measure' | 'side'>,
  device: Pick<Device, 'side'>,
): Generator<Fault> {
  if (side === null || side === 'none') return;
  const fits = device.side === 'both' || device.side === 'none' || device.side === side;
  if (!fits) yield { what, field: 'side', given: side, accepted: device.side };
  if (measure !== null && !measures[measure].sided)
    yield { what, field: 'side', given: side, accepted: 'none' };
}
