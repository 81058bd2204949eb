import type { IsoDate } from '../dates.js';
import type { Device } from '../device.js';
import type { SkinCheck } from '../skin-check.js';
import { dateFaults, type Fault } from './refuse.js';

/** `device`: the one that was taken off, where one is named. */
export function* skinCheckFaults(
  check: Pick<SkinCheck, 'childId' | 'deviceId' | 'date'>,
  {
    birthDate,
    device,
    today,
  }: { birthDate: IsoDate; device: Pick<Device, 'childId'> | null; today: IsoDate },
): Generator<Fault> {
  const what = 'Skin check';
  yield* dateFaults(what, 'date', check.date, { from: birthDate, since: 'birth', today });
  if (check.deviceId !== null && device?.childId !== check.childId)
    yield { what, field: 'deviceId', given: check.deviceId, accepted: 'a device of this child' };
}
