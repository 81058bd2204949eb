import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { isWorn } from '../../records/device-history.js';
import { inReadingOrder } from '../../records/device-order.js';
import type { Actor, Store } from '../../store/contract.js';
import type { TypedVisit } from './typed-visit.js';

/** Devices the child has on, left before right. */
export const devicesInUse = ({ devices, events }: ChildRecord): Device[] =>
  devices.filter((d) => isWorn(d, events)).toSorted(inReadingOrder);

/** Everything a visit found, in one transaction: all of it is kept or nothing. */
export async function saveVisit(
  store: Store,
  childId: string,
  { date, observer, readings, judged }: TypedVisit,
  today: IsoDate,
  actor: Actor,
): Promise<void> {
  await store.transaction(async (tx) => {
    if (readings.length > 0)
      await tx.visits.add(childId, { date, observer, measurements: readings }, today, actor);
    for (const { device, skin, verdict, note } of judged) {
      const deviceId = device.id;
      if (skin) await tx.skinChecks.add({ ...skin, childId, deviceId, date, observer }, today, actor);
      if (verdict || note !== '')
        await tx.events.add({ deviceId, date, kind: 'verdict', verdict, note }, today, actor);
    }
  });
}
