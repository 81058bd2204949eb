import type { FastifyInstance } from 'fastify';
import type { ChildRecord } from '../../records/caseload.js';
import { type IsoDate, isIsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { isWorn } from '../../records/device-history.js';
import { inReadingOrder } from '../../records/device-order.js';
import { saysOfFit } from '../../records/hip-angle.js';
import { writersOf } from '../../records/roles.js';
import { visitMove } from '../../service/api/schemas/records.js';
import { posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { Actor, Store } from '../../store/contract.js';
import { readerFormat } from '../parts/page-context.js';
import { type Asked, type Fields, pagesOf, typedRecord } from '../parts/pages-of.js';
import { childPath } from '../parts/paths.js';
import { expectedSizes, usualMeasures } from './expected-sizes.js';
import { blankVisit, readVisit, type TypedVisit } from './read-visit.js';
import { VisitPage } from './visit-page.js';

const text = (form: Fields): Record<string, string> =>
  Object.fromEntries(Object.entries(form).map(([k, v]) => [k, String(v ?? '')]));

/** A whole visit on one page: readings, skin and fit, one save. */
export function registerVisitPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post, save } = pagesOf(app, deps);
  const writers = writersOf.measurements;

  const opened = async ({ id, actor }: Asked, on: IsoDate) => {
    const [record, { context }] = await Promise.all([
      store.children.record(id, actor),
      deps.assessor.current(),
    ]);
    const { rules } = context;
    return {
      child: record.child,
      rules,
      devices: devicesInUse(record),
      sizes: expectedSizes(record, posteriorOf(record, deps), on),
      usual: usualMeasures(record, rules),
    };
  };
  const submitted = async (asked: Asked) => {
    const body = text(asked.body);
    const { today } = asked;
    const format = await readerFormat(asked.request, deps);
    const on = isIsoDate(body.date ?? '') && body.date <= today ? body.date : today;
    const start = await opened(asked, on);
    const visit = readVisit(body, start.sizes, start.devices, start.child.birthDate, today, format);
    return { start, visit, confirmed: body.confirmed === 'yes' };
  };

  get('/children/:id/visit', writers, async (asked) => {
    const { request, today } = asked;
    const blank = blankVisit(today, request.user?.displayName ?? '');
    return <VisitPage {...(await opened(asked, today))} {...blank} />;
  });

  post('/children/:id/visit/check', writers, async (asked) => {
    const { errors, doubts, remarks, readings } = (await submitted(asked)).visit;
    return asked.reply
      .header('cache-control', 'no-store')
      .send({ errors, doubts, remarks, count: readings.length });
  });

  post('/children/:id/visit', writers, async (asked) => {
    const { reply, id, today } = asked;
    const { start, visit, confirmed } = await submitted(asked);
    if (Object.keys(visit.errors).length > 0 || (Object.keys(visit.doubts).length > 0 && !confirmed))
      return reply.page(<VisitPage {...start} {...visit} />, 422);
    return reply.save(async (tx, actor) => {
      await saveVisit(tx, id, visit, today, actor);
      return childPath(id, '?notice=visit-saved');
    });
  });

  save('/children/:id/visits/move', writers, async ({ tx, id, body, today, actor }) => {
    await tx.visits.move(id, typedRecord(visitMove, body), today, actor);
    return childPath(id, '?notice=visit-moved');
  });
}

/** Devices the child has on, left before right. */
const devicesInUse = ({ devices, events }: ChildRecord): Device[] =>
  devices.filter((d) => isWorn(d, events)).toSorted(inReadingOrder);

/** Everything a visit found; the save it is part of keeps all of it or nothing. */
async function saveVisit(
  tx: Store,
  childId: string,
  { date, observer, readings, judged }: TypedVisit,
  today: IsoDate,
  actor: Actor,
): Promise<void> {
  if (readings.length > 0)
    await tx.visits.add(childId, { date, observer, measurements: readings }, today, actor);
  for (const { device, skin, ...said } of judged) {
    const deviceId = device.id;
    if (skin) await tx.skinChecks.add({ ...skin, childId, deviceId, date, observer }, today, actor);
    if (saysOfFit(said)) await tx.events.add({ deviceId, date, kind: 'verdict', ...said }, today, actor);
  }
}
