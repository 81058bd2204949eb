import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { readNumber } from '../../exchange/csv/read-number.js';
import { type IsoDate, isIsoDate } from '../../records/dates.js';
import { type Device, type DeviceEvent, deviceRecord, endReasons } from '../../records/device.js';
import { measureIds, measures } from '../../records/measure.js';
import { actorOf } from '../../service/access.js';
import { recordEvent } from '../../service/cast-next.js';
import { loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { Format } from '../parts/format.js';
import { pageContext, sendPage } from '../parts/page-context.js';
import { refusalOf } from '../parts/refusal-of.js';
import { clinicians, type Form } from '../parts/route-types.js';
import { DevicePage, NewDevicePage } from './device-page.js';
import { expectedSizes, usualMeasures } from './expected-sizes.js';
import { readVisit } from './read-visit.js';
import { devicesInUse, saveVisit } from './save-visit.js';
import { VisitPage } from './visit-page.js';

type Child = { Params: { id: string; device: string }; Querystring: Form; Body: Form };
const path = (id: string, rest = '') => `/children/${encodeURIComponent(id)}${rest}`;
const text = (form: Form): Record<string, string> =>
  Object.fromEntries(Object.entries(form ?? {}).map(([k, v]) => [k, String(v ?? '')]));

/** What a clinician enters: visits, devices, events and verdicts. */
export function registerVisitPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const access = { config: { access: clinicians } };

  /** What every answer about a visit starts from. */
  const opened = async (request: FastifyRequest<Child>, on: IsoDate) => {
    const record = await store.children.record(request.params.id, actorOf(request));
    const { rules } = (await deps.assessor.current()).context;
    return {
      child: record.child,
      devices: devicesInUse(record),
      sizes: expectedSizes(record, posteriorOf(record, deps), on),
      usual: usualMeasures(record, rules),
    };
  };
  const submitted = async (request: FastifyRequest<Child>, format: Format) => {
    const body = text(request.body);
    const today = clock.today();
    const on = isIsoDate(body.date ?? '') && body.date <= today ? body.date : today;
    const start = await opened(request, on);
    const visit = readVisit(body, start.sizes, start.devices, start.child.birthDate, today, format);
    return { start, visit, confirmed: body.confirmed === 'yes' };
  };

  app.get<Child>('/children/:id/visit', access, async (request, reply) => {
    const today = clock.today();
    const blank = {
      typed: {},
      unit: 'mm',
      date: today,
      observer: request.user?.displayName ?? '',
      errors: {},
      doubts: {},
      remarks: {},
    } as const;
    const context = await pageContext(request, reply, deps);
    return sendPage(reply, <VisitPage context={context} {...(await opened(request, today))} {...blank} />);
  });

  app.post<Child>('/children/:id/visit/check', access, async (request, reply) => {
    const { format } = await pageContext(request, reply, deps);
    const { errors, doubts, remarks, readings } = (await submitted(request, format)).visit;
    return reply
      .header('cache-control', 'no-store')
      .send({ errors, doubts, remarks, count: readings.length });
  });

  app.post<Child>('/children/:id/visit', access, async (request, reply) => {
    const { id } = request.params;
    const context = await pageContext(request, reply, deps);
    const { start, visit, confirmed } = await submitted(request, context.format);
    if (Object.keys(visit.errors).length > 0 || (Object.keys(visit.doubts).length > 0 && !confirmed))
      return sendPage(reply, <VisitPage context={context} {...start} {...visit} />, 422);
    await saveVisit(store, id, visit, clock.today(), actorOf(request));
    return reply.redirect(`${path(id)}?notice=visit-saved`, 303);
  });

  app.get<Child>('/children/:id/devices/new', access, async (request, reply) => {
    const { value } = await store.children.get(request.params.id, actorOf(request));
    const context = await pageContext(request, reply, deps);
    return sendPage(reply, <NewDevicePage context={context} child={value} typed={{}} error="" />);
  });

  app.post<Child>('/children/:id/devices', access, async (request, reply) => {
    const { id } = request.params;
    const body = text(request.body);
    const { value: child } = await store.children.get(id, actorOf(request));
    const fitted = body.fittedDate || null;
    const parsed = deviceRecord.omit({ id: true }).safeParse({
      childId: id,
      family: body.family,
      side: body.side,
      castDate: body.castDate,
      fittedDate: fitted,
      status: fitted ? 'worn' : 'ordered',
      footplate: body.footplate,
    });
    const wrong = parsed.success
      ? await refusalOf(store.devices.create(parsed.data, clock.today(), actorOf(request)))
      : `${parsed.error.issues[0].path.join('.')}: ${parsed.error.issues[0].message}`;
    if (!wrong) return reply.redirect(`${path(id)}?notice=device-saved`, 303);
    const context = await pageContext(request, reply, deps);
    const page = <NewDevicePage context={context} child={child} typed={body} error={wrong} />;
    return sendPage(reply, page, 422);
  });

  app.get<Child>('/children/:id/devices/:device', access, async (request, reply) => {
    const view = await loadChildFor(request, request.params.id, deps);
    const device = view.record.devices.find((d) => d.id === request.params.device);
    if (!device) throw new DoorpostError('not-found', 'This child has no such device');
    const { rules } = (await deps.assessor.current()).context;
    return sendPage(
      reply,
      <DevicePage
        context={await pageContext(request, reply, deps)}
        child={view.record.child}
        device={device}
        view={view.inUse.find((v) => v.device.id === device.id) ?? null}
        events={view.record.events.filter((e) => e.deviceId === device.id)}
        limiting={rules.get(device.family)?.dimensions.map((d) => d.measure) ?? []}
        error=""
      />,
    );
  });

  app.post<Child>('/children/:id/devices/:device/events', access, async (request, reply) => {
    const { id, device: deviceId } = request.params;
    const body = text(request.body);
    const actor = actorOf(request);
    const { value: device } = await store.devices.get(deviceId, actor);
    if (device.childId !== id) throw new DoorpostError('not-found', 'This child has no such device');
    const event = eventOf(body, deviceId, device.side);
    await store.transaction((tx) => recordEvent(tx, event, clock.today(), actor));
    return reply.redirect(`${path(id)}?notice=event-saved`, 303);
  });
}

/** A submitted event form as an event, or the reason it cannot be one. */
function eventOf(
  body: Record<string, string>,
  deviceId: string,
  deviceSide: Device['side'],
): Omit<DeviceEvent, 'id'> {
  const refuse = (field: string, given: string, accepted: string): never => {
    throw new DoorpostError('invalid-value', `${field} '${given}' cannot be; accepted: ${accepted}`, {
      field,
      given,
      accepted,
    });
  };
  const kinds = ['delivered', 'adjusted', 're-cast', 'broken', 'lost', 'retired', 'verdict'] as const;
  const kind = kinds.find((k) => k === body.kind) ?? refuse('kind', body.kind ?? '', kinds.join(', '));
  const date = isIsoDate(body.date ?? '') ? body.date : refuse('date', body.date ?? '', 'year-month-day');
  const measure = body.measure
    ? (measureIds.find((m) => m === body.measure) ?? refuse('measure', body.measure, measureIds.join(', ')))
    : null;
  const verdicts = ['loose', 'good', 'tight', 'outgrown'] as const;
  const adjustments = ['side-bar', 'relief', 'trim', 'relocated-joint', 'strap', 'pad', 'other'] as const;
  const change = body.change ? readNumber(body.change) : null;
  return {
    deviceId,
    date,
    kind,
    measure,
    // A device of one side is judged on that side; a frame of both is judged as a whole.
    side:
      measure && measures[measure].sided && (deviceSide === 'left' || deviceSide === 'right')
        ? deviceSide
        : null,
    changeMm: kind === 'adjusted' ? change : null,
    adjustment: kind === 'adjusted' ? (adjustments.find((a) => a === body.adjustment) ?? 'other') : null,
    verdict:
      kind === 'verdict'
        ? (verdicts.find((v) => v === body.verdict) ??
          refuse('verdict', body.verdict ?? '', verdicts.join(', ')))
        : null,
    endReason: kind === 'retired' ? (endReasons.find((r) => r === body.endReason) ?? null) : null,
    note: (body.note ?? '').slice(0, 1000),
  };
}
