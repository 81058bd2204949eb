import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { familyFaults } from '../../records/check/device-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { Device } from '../../records/device.js';
import { inReadingOrder } from '../../records/device-order.js';
import { familyFacts } from '../../rules/family-facts.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { actorOf } from '../../service/access.js';
import { beginJob, castNext } from '../../service/cast-next.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { clinicians } from '../../service/roles.js';
import { refusalOf } from '../parts/refusal-of.js';
import type { Fields } from '../parts/route-types.js';
import { type DeviceChoice, readDevice, recordsOf, typedDevice } from './device-form.js';
import { EditDevicePage, NewDevicePage, NextDevicePage } from './device-form-pages.js';

type OfDevice = { Params: { id: string; device: string }; Querystring: Fields; Body: Fields };
const access = { config: { access: clinicians } };

/** A device typed on a page: a new one, the next of one in use, or one put right. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the pages of one form, which share how it is opened
export function registerDeviceForms(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const opened = async (request: FastifyRequest<OfDevice>) => {
    const { child, devices } = await store.children.record(request.params.id, actorOf(request));
    const { rules } = (await deps.assessor.current()).context;
    const device = devices.find((d) => d.id === request.params.device);
    if (request.params.device !== undefined && !device)
      throw new DoorpostError('not-found', 'This child has no such device');
    const others = devices.filter((d) => d.status === 'worn' && d.id !== device?.id).toSorted(inReadingOrder);
    return { child, devices, device: device as Device, others, rules };
  };
  const ruleOf = (rules: ReadonlyMap<string, FamilyRule>, family: string | undefined): FamilyRule => {
    refuse(familyFaults('Device', family ?? '', familyFacts(rules)));
    return rules.get(family ?? '') as FamilyRule;
  };
  const asked = async (request: FastifyRequest<OfDevice>, pairs: boolean) => {
    const start = await opened(request);
    const body: Fields = request.body ?? {};
    const rule = ruleOf(start.rules, start.device?.family ?? body.family);
    const { birthDate } = start.child;
    const extra = start.device?.extra ?? {};
    const question = { rule, child: { birthDate }, today: clock.today(), pairs, extra };
    // One that took the place of another that has ended since may go on saying so.
    const others = start.devices.filter((d) => d.id !== request.params.device || pairs);
    return { start, rule, read: readDevice(body, { ...question, others }) };
  };

  app.get<OfDevice>('/children/:id/devices/new', access, async (request, reply) => {
    const { child, others, rules } = await opened(request);
    const rule = ruleOf(rules, request.query.family ?? others[0]?.family ?? 'solid-afo');
    const page = { child, rule, rules, others, typed: request.query, errors: {}, refused: '' };
    return reply.page(<NewDevicePage {...page} />);
  });

  app.post<OfDevice>('/children/:id/devices', access, async (request, reply) => {
    const { start, rule, read } = await asked(request, true);
    const { id } = request.params;
    const clean = Object.keys(read.errors).length === 0;
    const refused = clean
      ? await refusalOf(
          reply.save(async (tx, actor) => {
            for (const device of recordsOf(read.choice)) {
              const made = await tx.devices.create({ childId: id, ...device }, clock.today(), actor);
              if (made.value.status === 'ordered') await beginJob(tx, made.value, clock.today(), actor);
            }
            return `/children/${encodeURIComponent(id)}?notice=device-saved`;
          }),
        )
      : '';
    if (clean && !refused) return reply;
    const page = { ...start, rule, typed: read.typed, errors: read.errors, refused };
    return reply.page(<NewDevicePage {...page} />, 422);
  });

  app.get<OfDevice>('/children/:id/devices/:device/next', access, async (request, reply) => {
    const { child, device, devices, rules } = await opened(request);
    const rule = ruleOf(rules, device.family);
    // Sizes a maker stated are those of the old shell.
    const as = { ...device, castDate: clock.today(), fittedDate: null, limitsMm: {}, replaces: device.id };
    const typed = { ...typedDevice(as), ...request.query };
    const page = { child, rule, before: device, typed, others: devices, errors: {}, refused: '' };
    return reply.page(<NextDevicePage {...page} />);
  });

  app.post<OfDevice>('/children/:id/devices/:device/next', access, async (request, reply) => {
    const { start, rule, read } = await asked(request, false);
    const clean = Object.keys(read.errors).length === 0;
    const path = `/children/${encodeURIComponent(request.params.id)}/devices/`;
    const refused = clean
      ? await refusalOf(
          reply.save(async (tx, actor) => {
            const { fittedDate: _fitted, replaces: _replaces, ...chosen } = read.choice;
            const side = chosen.side as Device['side'];
            const cast = { ...chosen, side };
            const { value: next } = await castNext(tx, start.device.id, cast, clock.today(), actor);
            return `${path}${encodeURIComponent(next.id)}/slip?notice=next-cast`;
          }),
        )
      : '';
    if (clean && !refused) return reply;
    const page = { ...start, rule, before: start.device, others: start.devices, refused };
    return reply.page(<NextDevicePage {...page} typed={read.typed} errors={read.errors} />, 422);
  });

  app.get<OfDevice>('/children/:id/devices/:device/edit', access, async (request, reply) => {
    const { child, devices, device, rules } = await opened(request);
    const { version } = await store.devices.get(device.id, actorOf(request));
    const rule = ruleOf(rules, device.family);
    const others = devices.filter((d) => d.id !== device.id);
    const page = { child, rule, device, version, others, errors: {}, refused: '' };
    return reply.page(<EditDevicePage {...page} typed={typedDevice(device)} />);
  });

  app.post<OfDevice>('/children/:id/devices/:device/edit', access, async (request, reply) => {
    const { start, rule, read } = await asked(request, false);
    const { device } = start;
    const version = Number(request.body?.version) || 0;
    const path = `/children/${encodeURIComponent(request.params.id)}/devices/${encodeURIComponent(device.id)}`;
    const clean = Object.keys(read.errors).length === 0;
    const change = {
      ...read.choice,
      side: read.choice.side as Device['side'],
      ...statusOf(read.choice, device),
    };
    const refused = clean
      ? await refusalOf(
          reply.save(async (tx, actor) => {
            await tx.devices.change(device.id, change, clock.today(), version, actor);
            return `${path}?notice=device-saved#history`;
          }),
        )
      : '';
    if (clean && !refused) return reply;
    const others = start.devices.filter((d) => d.id !== device.id);
    const page = {
      ...start,
      rule,
      version,
      others,
      typed: read.typed,
      errors: read.errors,
      refused,
    };
    return reply.page(<EditDevicePage {...page} />, 422);
  });
}

/** A fitting day given or taken away says whether it is worn; an end stays an end. */
const statusOf = ({ fittedDate }: DeviceChoice, { status }: Device): Pick<Device, 'status'> => ({
  status: status === 'retired' ? status : fittedDate === null ? 'ordered' : 'worn',
});
