import type { IsoDate } from '../dates.js';
import type { Device, DeviceEvent } from '../device.js';
import { measures } from '../measure.js';
import { type Families, MOST_ROOM_MM } from './check-device.js';
import { checkDate, refuse } from './refuse.js';

export interface EventContext {
  readonly device: Pick<Device, 'family' | 'side' | 'castDate'>;
  readonly today: IsoDate;
  readonly families: Families;
  readonly row?: number;
}

export function checkEvent(
  event: Pick<DeviceEvent, 'kind' | 'date' | 'measure' | 'side' | 'changeMm' | 'verdict' | 'endReason'>,
  { device, today, families, row }: EventContext,
): void {
  const what = `Event ${event.kind}`;
  checkDate(what, 'date', event.date, { from: device.castDate, since: 'the cast', today, row });
  if (event.kind === 'verdict' && event.verdict === null)
    refuse(what, { field: 'verdict', given: 'nothing', accepted: 'loose, good, tight or outgrown', row });
  if (event.kind === 'adjusted' && event.changeMm === null)
    refuse(what, { field: 'changeMm', given: 'nothing', accepted: 'the room gained, in mm', row });
  if (event.endReason && event.kind !== 'retired')
    refuse(what, { field: 'endReason', given: event.endReason, accepted: 'nothing but with retired', row });
  if (event.changeMm !== null && !(Math.abs(event.changeMm) <= MOST_ROOM_MM))
    refuse(what, {
      field: 'changeMm',
      given: String(event.changeMm),
      accepted: `-${MOST_ROOM_MM} to ${MOST_ROOM_MM} mm`,
      row,
    });
  const limiting = families.get(device.family)?.measures;
  if (event.measure !== null && limiting && !limiting.includes(event.measure))
    refuse(what, {
      field: 'measure',
      given: event.measure,
      accepted: `what limits a ${device.family}: ${limiting.join(', ')}`,
      row,
    });
  checkSide(what, event, device, row);
}

/** A side is that of the device; a measure of the whole body has none. */
function checkSide(
  what: string,
  { measure, side }: Pick<DeviceEvent, 'measure' | 'side'>,
  device: Pick<Device, 'side'>,
  row?: number,
): void {
  if (side === null || side === 'none') return;
  const fits = device.side === 'both' || device.side === 'none' || device.side === side;
  if (!fits) refuse(what, { field: 'side', given: side, accepted: device.side, row });
  if (measure !== null && !measures[measure].sided)
    refuse(what, { field: 'side', given: side, accepted: 'none', row });
}
