import type { FastifyInstance } from 'fastify';
import { addDaysIso } from '../../records/dates.js';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { RecallRow } from '../../store/contract.js';
import { pageContext, sendPage } from '../parts/page-context.js';
import { planners } from '../parts/route-types.js';
import { TodayPage } from './today-page.js';

/** So many names are read before one starts. */
const SHOWN = 12;
const OVER = ['done', 'declined', 'moved-away'];

export function registerTodayPage(app: FastifyInstance, { store, clock, ...deps }: ServiceDeps): void {
  app.get('/today', { config: { access: planners } }, async (request, reply) => {
    const today = clock.today();
    const run = await store.recall.latestRun();
    const rows = run ? await store.recall.entries(run.id, {}, actorOf(request)) : [];
    const open = rows.filter((r) => r.list !== 'open' && !OVER.includes(r.state));
    const isUrgent = (r: RecallRow) => r.entry.action === 'see-now' || r.entry.action === 'repair';
    const isSoon = (r: RecallRow) => r.appointment === today || r.appointment === addDaysIso(today, 1);
    const next = open.filter((r) => !isUrgent(r) && r.appointment === null);
    return sendPage(
      reply,
      <TodayPage
        context={await pageContext(request, reply, { store, clock, ...deps })}
        urgent={open.filter((r) => isUrgent(r) && !isSoon(r))}
        appointments={open.filter(isSoon).toSorted((a, b) => a.appointment!.localeCompare(b.appointment!))}
        byHarm={next.slice(0, SHOWN)}
        more={Math.max(0, next.length - SHOWN)}
        listMade={run?.today ?? null}
      />,
    );
  });
}
