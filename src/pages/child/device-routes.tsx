import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { clinicDays } from '../../recall/level/clinic-week.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { deviceOf } from '../../records/device-of.js';
import { measures } from '../../records/measure.js';
import { writersOf } from '../../records/roles.js';
import { delivery, eventCorrection, newEvent } from '../../service/api/schemas/records.js';
import { deliver, recordEvent } from '../../service/cast-next.js';
import { loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import { clinicWeekOf } from '../../service/clinic-week-of.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { type Asked, type Fields, pagesOf, typedRecord } from '../parts/pages-of.js';
import { childPath, devicePath } from '../parts/paths.js';
import { DevicePage } from './device-page.js';
import { expectedSizes } from './expected-sizes.js';
import { workshopSlip } from './workshop-slip.js';
import { WorkshopSlipPage } from './workshop-slip-page.js';

/** One device: what happens to it is recorded, put right and taken back; the slip that goes to the workshop. */
export function registerDevicePages(app: FastifyInstance, deps: ServiceDeps): void {
  readDevice(app, deps);
  changeDevice(app, deps);
}

function readDevice(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get } = pagesOf(app, deps);
  const opened = async ({ request, id, params }: Asked) => {
    const view = await loadChildFor(request, id, deps);
    const device = deviceOf(view.record, params.device);
    const { rules } = (await deps.assessor.current()).context;
    const inUse = view.inUse.find((v) => v.device.id === device.id) ?? null;
    return { view, device, inUse, rule: rules.get(device.family) ?? null };
  };

  get('/children/:id/devices/:device', writersOf.events, async (asked) => {
    const { view, device, inUse, rule } = await opened(asked);
    const replaced = view.record.devices.find((d) => d.id === device.replaces && d.status === 'worn');
    return (
      <DevicePage
        child={view.record.child}
        device={device}
        replaced={replaced ?? null}
        view={inUse}
        rule={rule}
        events={await store.events.revisions(device.id, asked.actor)}
        versions={await store.devices.versions(device.id, asked.actor)}
      />
    );
  });

  get('/children/:id/devices/:device/slip', writersOf.events, async (asked) => {
    const { view, device, inUse, rule } = await opened(asked);
    const sizes = expectedSizes(view.record, posteriorOf(view.record, deps), device.castDate);
    const clinic = clinicDays(clinicWeekOf((await store.settings.get()).value));
    const slip = workshopSlip(view, device, rule, sizes, inUse?.turnaround ?? null, clinic);
    return <WorkshopSlipPage child={view.record.child} rule={rule} slip={slip} />;
  });
}

function changeDevice(app: FastifyInstance, deps: ServiceDeps): void {
  const { save } = pagesOf(app, deps);
  /** The device, when it is this child's: an address cannot reach another's. */
  const owned = async ({ id, params, actor }: Asked): Promise<Device> => {
    const { value } = await deps.store.devices.get(params.device, actor);
    return deviceOf({ devices: value.childId === id ? [value] : [] }, params.device);
  };
  const ownEvent = async (asked: Asked): Promise<string> => {
    const device = await owned(asked);
    const { event } = asked.params;
    const all = await deps.store.events.revisions(device.id, asked.actor);
    if (all.some((r) => r.event.id === event)) return event;
    throw new DoorpostError('not-found', 'Nothing of that kind was recorded of this device');
  };
  const history = ({ id, params }: Asked, notice: string) =>
    devicePath(id, params.device, `?notice=${notice}#history`);

  save('/children/:id/devices/:device/events', writersOf.events, async (asked) => {
    const { tx, id, body, today, actor } = asked;
    await recordEvent(tx, readEvent(body, await owned(asked)), today, actor);
    return childPath(id, '?notice=event-saved');
  });

  save('/children/:id/devices/:device/delivery', writersOf.events, async (asked) => {
    const { tx, id, body, today, actor } = asked;
    const device = await owned(asked);
    await deliver(tx, device.id, typedRecord(delivery, body), today, actor);
    return childPath(id, '?notice=device-fitted');
  });

  save('/children/:id/devices/:device/events/:event', writersOf.events, async (asked) => {
    const { tx, body, today, actor } = asked;
    const event = await ownEvent(asked);
    const correction = typedRecord(eventCorrection, body);
    if (body.leaveOut === 'yes') await tx.events.withdraw(event, correction.reason, actor);
    else await tx.events.correct(event, correction, today, actor);
    return history(asked, 'event-corrected');
  });

  save('/children/:id/devices/:device/events/:event/undo', writersOf.events, async (asked) => {
    await asked.tx.events.undoCorrection(await ownEvent(asked), asked.today, asked.actor);
    return history(asked, 'suggestion-undone');
  });

  save('/children/:id/devices/:device/undo', writersOf.events, async (asked) => {
    const device = await owned(asked);
    await asked.tx.devices.undoChange(device.id, asked.today, asked.actor);
    return history(asked, 'device-undone');
  });
}

/** A submitted event form as an event; throws with field, value and what would be accepted. */
function readEvent(body: Fields, device: Pick<Device, 'id' | 'side'>): Omit<DeviceEvent, 'id'> {
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
