import type { FastifyInstance, FastifyReply } from 'fastify';
import type { VNode } from 'preact';
import { familyFaults } from '../../records/check/device-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { Device } from '../../records/device.js';
import { stateByFitting } from '../../records/device.js';
import { deviceOf } from '../../records/device-of.js';
import { inReadingOrder } from '../../records/device-order.js';
import { writersOf } from '../../records/roles.js';
import { familyFacts } from '../../rules/family-facts.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { beginJob, castNext } from '../../service/cast-next.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { Actor, Store } from '../../store/contract.js';
import { type Asked, type Fields, pagesOf, refusalOf } from '../parts/pages-of.js';
import { childPath, devicePath } from '../parts/paths.js';
import { type DeviceChoice, type ReadDevice, readDevice, recordsOf, typedDevice } from './device-form.js';
import { EditDevicePage, NewDevicePage, NextDevicePage } from './device-form-pages.js';

const writers = writersOf.devices;

/** A device typed on a page: a new one, the next of one in use, or one put right. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the pages of one form, which share how it is opened
export function registerDeviceForms(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post } = pagesOf(app, deps);
  const opened = async ({ id: childId, params: { device: id }, actor }: Asked) => {
    const { child, devices } = await store.children.record(childId, actor);
    const { rules } = (await deps.assessor.current()).context;
    const device = id === undefined ? undefined : deviceOf({ devices }, id);
    const others = devices.filter((d) => d.status === 'worn' && d.id !== id).toSorted(inReadingOrder);
    return { child, devices, device: device as Device, others, rules };
  };
  const ruleOf = (rules: ReadonlyMap<string, FamilyRule>, family: string | undefined): FamilyRule => {
    refuse(familyFaults('Device', family ?? '', familyFacts(rules)));
    return rules.get(family ?? '') as FamilyRule;
  };
  const readForm = async (asked: Asked, pairs: boolean) => {
    const { body, params, today } = asked;
    const start = await opened(asked);
    const rule = ruleOf(start.rules, start.device?.family ?? body.family);
    const { birthDate } = start.child;
    const question = { rule, birthDate, today, pairs, extra: start.device?.extra ?? {} };
    // One that took the place of another that has ended since may go on saying so.
    const others = start.devices.filter((d) => d.id !== params.device || pairs);
    return { start, rule, read: readDevice(body, { ...question, others }) };
  };

  /** Stores what was read, or shows the form again with why not. */
  const stored = async (
    reply: FastifyReply,
    { read }: Awaited<ReturnType<typeof readForm>>,
    work: Parameters<FastifyReply['save']>[0],
    again: (said: { typed: Fields; errors: ReadDevice['errors']; refused: string }) => VNode,
  ): Promise<FastifyReply> => {
    const clean = Object.keys(read.errors).length === 0;
    const refused = clean ? await refusalOf(reply.save(work)) : '';
    return clean && !refused ? reply : reply.page(again({ ...read, refused }), 422);
  };
  const unasked = { errors: {}, refused: '' };

  get('/children/:id/devices/new', writers, async (asked) => {
    const { child, others, rules } = await opened(asked);
    const rule = ruleOf(rules, asked.query.family ?? others[0]?.family ?? 'solid-afo');
    const page = { child, rule, rules, others, typed: asked.query };
    return <NewDevicePage {...page} {...unasked} />;
  });

  post('/children/:id/devices', writers, async (asked) => {
    const { reply, id: childId, today } = asked;
    const form = await readForm(asked, true);
    const { start, rule, read } = form;
    const create = async (tx: Store, actor: Actor) => {
      for (const device of recordsOf(read.choice)) {
        const made = await tx.devices.create({ childId, ...device }, today, actor);
        if (made.value.status === 'ordered') await beginJob(tx, made.value, today, actor);
      }
      return childPath(childId, '?notice=device-saved');
    };
    return stored(reply, form, create, (said) => <NewDevicePage {...start} rule={rule} {...said} />);
  });

  get('/children/:id/devices/:device/next', writers, async (asked) => {
    const { child, device, devices, rules } = await opened(asked);
    const rule = ruleOf(rules, device.family);
    // Sizes a maker stated are those of the old shell.
    const as = { ...device, castDate: asked.today, fittedDate: null, limitsMm: {}, replaces: device.id };
    const typed = { ...typedDevice(as), ...asked.query };
    const page = { child, rule, before: device, typed, others: devices };
    return <NextDevicePage {...page} {...unasked} />;
  });

  post('/children/:id/devices/:device/next', writers, async (asked) => {
    const { reply, id, today } = asked;
    const form = await readForm(asked, false);
    const { start, rule, read } = form;
    const cast = async (tx: Store, actor: Actor) => {
      const { fittedDate: _fitted, replaces: _replaces, ...chosen } = read.choice;
      const next = { ...chosen, side: chosen.side as Device['side'] };
      const { value } = await castNext(tx, start.device.id, next, today, actor);
      return devicePath(id, value.id, '/slip?notice=next-cast');
    };
    const page = { ...start, rule, before: start.device, others: start.devices };
    return stored(reply, form, cast, (said) => <NextDevicePage {...page} {...said} />);
  });

  get('/children/:id/devices/:device/edit', writers, async (asked) => {
    const { child, devices, device, rules } = await opened(asked);
    const { version } = await store.devices.get(device.id, asked.actor);
    const others = devices.filter((d) => d.id !== device.id);
    const page = { child, rule: ruleOf(rules, device.family), device, version, others };
    return <EditDevicePage {...page} typed={typedDevice(device)} {...unasked} />;
  });

  post('/children/:id/devices/:device/edit', writers, async (asked) => {
    const { reply, id, body, today } = asked;
    const form = await readForm(asked, false);
    const { start, rule, read } = form;
    const { device } = start;
    const version = Number(body.version) || 0;
    const side = read.choice.side as Device['side'];
    const change = { ...read.choice, side, ...statusOf(read.choice, device) };
    const put = async (tx: Store, actor: Actor) => {
      await tx.devices.change(device.id, change, today, version, actor);
      return devicePath(id, device.id, '?notice=device-saved#history');
    };
    const others = start.devices.filter((d) => d.id !== device.id);
    const page = { ...start, rule, version, others };
    return stored(reply, form, put, (said) => <EditDevicePage {...page} {...said} />);
  });
}

/** A fitting day given or taken away says whether it is worn; an end stays an end. */
const statusOf = ({ fittedDate }: DeviceChoice, { status }: Device): Pick<Device, 'status'> => ({
  status: status === 'retired' ? status : stateByFitting(fittedDate),
});
