import type { FastifyInstance, FastifyRequest } from 'fastify';
import { type IsoDate, isIsoDate } from '../../records/dates.js';
import { writersOf } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import { visitMove } from '../../service/api/schemas/records.js';
import { posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { Format } from '../parts/format.js';
import { readerFormat } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';
import type { Fields } from '../parts/route-types.js';
import { typedRecord } from '../parts/typed-record.js';
import { expectedSizes, usualMeasures } from './expected-sizes.js';
import { readVisit } from './read-visit.js';
import { devicesInUse, saveVisit } from './save-visit.js';
import { VisitPage } from './visit-page.js';

type Child = { Params: { id: string }; Querystring: Fields; Body: Fields };
const text = (form: Fields): Record<string, string> =>
  Object.fromEntries(Object.entries(form ?? {}).map(([k, v]) => [k, String(v ?? '')]));

/** A whole visit on one page: readings, skin and fit, one save. */
export function registerVisitPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const access = { config: { access: writersOf.measurements } };

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
    return reply.page(<VisitPage {...(await opened(request, today))} {...blank} />);
  });

  app.post<Child>('/children/:id/visit/check', access, async (request, reply) => {
    const format = await readerFormat(request, deps);
    const { errors, doubts, remarks, readings } = (await submitted(request, format)).visit;
    return reply
      .header('cache-control', 'no-store')
      .send({ errors, doubts, remarks, count: readings.length });
  });

  app.post<Child>('/children/:id/visit', access, async (request, reply) => {
    const { id } = request.params;
    const { start, visit, confirmed } = await submitted(request, await readerFormat(request, deps));
    if (Object.keys(visit.errors).length > 0 || (Object.keys(visit.doubts).length > 0 && !confirmed))
      return reply.page(<VisitPage {...start} {...visit} />, 422);
    return reply.save(async (tx, actor) => {
      await saveVisit(tx, id, visit, clock.today(), actor);
      return `${childPath(id)}?notice=visit-saved`;
    });
  });

  app.post<Child>('/children/:id/visits/move', access, async (request, reply) => {
    const { id } = request.params;
    const move = typedRecord(visitMove, request.body);
    return reply.save(async (tx, actor) => {
      await tx.visits.move(id, move, clock.today(), actor);
      return `${childPath(id)}?notice=visit-moved`;
    });
  });
}
