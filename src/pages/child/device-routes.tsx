import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { Device } from '../../records/device.js';
import { deviceOf } from '../../records/device-of.js';
import { writersOf } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import { delivery, eventCorrection } from '../../service/api/schemas/records.js';
import { deliver, recordEvent } from '../../service/cast-next.js';
import { loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { childPath, devicePath } from '../parts/paths.js';
import type { Fields } from '../parts/route-types.js';
import { typedRecord } from '../parts/typed-record.js';
import { DevicePage } from './device-page.js';
import { readEvent } from './event-form.js';
import { expectedSizes } from './expected-sizes.js';
import { workshopSlip } from './workshop-slip.js';
import { WorkshopSlipPage } from './workshop-slip-page.js';

type OfDevice = { Params: { id: string; device: string; event: string }; Querystring: Fields; Body: Fields };
const access = { config: { access: writersOf.events } };

/** One device: what happens to it is recorded, put right and taken back; the slip that goes to the workshop. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the pages of one device, which share how it is opened
export function registerDevicePages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const opened = async (request: FastifyRequest<OfDevice>) => {
    const view = await loadChildFor(request, request.params.id, deps);
    const device = deviceOf(view.record, request.params.device);
    const { rules } = (await deps.assessor.current()).context;
    return { view, device, rule: rules.get(device.family) ?? null };
  };
  /** The device, when it is this child's: an address cannot reach another's. */
  const owned = async (request: FastifyRequest<OfDevice>): Promise<Device> => {
    const { id, device } = request.params;
    const { value } = await store.devices.get(device, actorOf(request));
    return deviceOf({ devices: value.childId === id ? [value] : [] }, device);
  };
  const page = ({ id, device }: OfDevice['Params']) => devicePath(id, device);

  app.get<OfDevice>('/children/:id/devices/:device', access, async (request, reply) => {
    const { view, device, rule } = await opened(request);
    const actor = actorOf(request);
    const replaced = view.record.devices.find((d) => d.id === device.replaces && d.status === 'worn');
    return reply.page(
      <DevicePage
        child={view.record.child}
        device={device}
        replaced={replaced ?? null}
        view={view.inUse.find((v) => v.device.id === device.id) ?? null}
        rule={rule}
        events={await store.events.revisions(device.id, actor)}
        versions={await store.devices.versions(device.id, actor)}
      />,
    );
  });

  app.get<OfDevice>('/children/:id/devices/:device/slip', access, async (request, reply) => {
    const { view, device, rule } = await opened(request);
    const turnaround = view.inUse.find((v) => v.device.id === device.id)?.turnaround ?? null;
    const sizes = expectedSizes(view.record, posteriorOf(view.record, deps), device.castDate);
    return reply.page(
      <WorkshopSlipPage
        child={view.record.child}
        rule={rule}
        slip={workshopSlip(view, device, rule, sizes, turnaround)}
      />,
    );
  });

  app.post<OfDevice>('/children/:id/devices/:device/events', access, async (request, reply) => {
    const event = readEvent(request.body ?? {}, await owned(request));
    return reply.save(async (tx, actor) => {
      await recordEvent(tx, event, clock.today(), actor);
      return childPath(request.params.id, '?notice=event-saved');
    });
  });

  app.post<OfDevice>('/children/:id/devices/:device/delivery', access, async (request, reply) => {
    const device = await owned(request);
    const fitted = typedRecord(delivery, request.body);
    return reply.save(async (tx, actor) => {
      await deliver(tx, device.id, fitted, clock.today(), actor);
      return childPath(request.params.id, '?notice=device-fitted');
    });
  });

  app.post<OfDevice>('/children/:id/devices/:device/events/:event', access, async (request, reply) => {
    await ownEvent(request);
    const correction = typedRecord(eventCorrection, request.body);
    const { event: eventId } = request.params;
    return reply.save(async (tx, actor) => {
      if (request.body?.leaveOut === 'yes') await tx.events.withdraw(eventId, correction.reason, actor);
      else await tx.events.correct(eventId, correction, clock.today(), actor);
      return `${page(request.params)}?notice=event-corrected#history`;
    });
  });

  app.post<OfDevice>('/children/:id/devices/:device/events/:event/undo', access, async (request, reply) => {
    await ownEvent(request);
    return reply.save(async (tx, actor) => {
      await tx.events.undoCorrection(request.params.event, clock.today(), actor);
      return `${page(request.params)}?notice=suggestion-undone#history`;
    });
  });

  app.post<OfDevice>('/children/:id/devices/:device/undo', access, async (request, reply) => {
    const device = await owned(request);
    return reply.save(async (tx, actor) => {
      await tx.devices.undoChange(device.id, clock.today(), actor);
      return `${page(request.params)}?notice=device-undone#history`;
    });
  });

  async function ownEvent(request: FastifyRequest<OfDevice>): Promise<void> {
    const device = await owned(request);
    const all = await store.events.revisions(device.id, actorOf(request));
    if (!all.some((r) => r.event.id === request.params.event))
      throw new DoorpostError('not-found', 'Nothing of that kind was recorded of this device');
  }
}
