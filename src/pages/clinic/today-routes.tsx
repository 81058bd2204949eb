import type { FastifyInstance } from 'fastify';
import { isRungToday } from '../../recall/contract.js';
import { addDaysIso } from '../../records/dates.js';
import { planners } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { RecallBrief, RecallRow } from '../../store/contract.js';
import { pagesOf } from '../parts/pages-of.js';
import { TodayPage } from './today-page.js';

/** So many names are read before one starts. */
const SHOWN = 12;
const OVER = ['done', 'declined', 'moved-away'];

export function registerTodayPage(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  pagesOf(app, deps).get('/today', planners, async ({ request, query, actor, today }) => {
    const [run] = await store.recall.inUse();
    const rows = run ? await store.recall.briefs(run.id, { due: true }) : [];
    const open = rows.filter((r) => !OVER.includes(r.state));
    const isSoon = (r: RecallBrief) => r.appointment === today || r.appointment === addDaysIso(today, 1);
    const next = open.filter((r) => !isRungToday(r.entry.action) && r.appointment === null);
    // Children who have a clinician are that person's list; a clinic that names nobody has one list for all.
    const me = request.user?.displayName.trim().toLowerCase() ?? '';
    const mine = next.filter((r) => me !== '' && r.clinician.trim().toLowerCase() === me);
    const asked = query.whose === 'all' ? 'all' : 'mine';
    const whose = mine.length === 0 ? null : asked;
    const list = whose === 'mine' ? mine : next;
    const urgent = open.filter((r) => isRungToday(r.entry.action) && !isSoon(r));
    const soon = open.filter(isSoon).toSorted((a, b) => a.appointment!.localeCompare(b.appointment!));
    const byHarm = list.slice(0, SHOWN);
    const ids = [...urgent, ...soon, ...byHarm].map((r) => r.id);
    const shown = run ? await store.recall.entries(run.id, { ids }, actor) : [];
    const rowOf = new Map(shown.map((r): [string, RecallRow] => [r.id, r]));
    const whole = (briefs: readonly RecallBrief[]) => briefs.flatMap((r) => rowOf.get(r.id) ?? []);
    return (
      <TodayPage
        waiting={actor.role === 'clinician' ? await store.familyQuestions.waiting(actor) : []}
        urgent={whole(urgent)}
        appointments={whole(soon)}
        byHarm={whole(byHarm)}
        whose={whose}
        more={Math.max(0, list.length - SHOWN)}
        listMade={run?.today ?? null}
        anyChild={run !== undefined || (await store.children.count({ status: 'any' })) > 0}
      />
    );
  });
}
