import type { FastifyInstance, FastifyRequest } from 'fastify';
import { capacityChart } from '../../charts/capacity-chart.js';
import { renderSvg } from '../../charts/render-chart.js';
import { estimateTurnaround } from '../../turnaround/estimate-turnaround.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { slotsByWeek } from '../slots-by-week.js';
import { OverviewPage } from './overview-page.js';
import { castsByWeek, forecastAgainstVerdicts, yearCounts } from './overview-view.js';
import { pageContext, sendPage } from './page-context.js';
import { staff } from './route-types.js';

const WEEKS_AHEAD = 26;

export function registerOverviewPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;

  const workload = async (request: FastifyRequest) => {
    const run = await store.recall.latestRun();
    const rows = run ? await store.recall.entries(run.id, {}, actorOf(request)) : [];
    const { value: settings } = await store.settings.get();
    const weeks = castsByWeek(rows, slotsByWeek(settings, clock.today(), WEEKS_AHEAD));
    return {
      rows,
      chart: run ? capacityChart({ weeks, loadTitle: 'Casts a week', title: 'Casts due, by week' }) : null,
    };
  };

  app.get('/overview', { config: { access: staff } }, async (request, reply) => {
    const today = clock.today();
    const [context, caseload, past, { rows, chart }, coverage] = await Promise.all([
      pageContext(request, reply, deps),
      store.caseload.all(),
      store.forecasts.history(),
      workload(request),
      store.forecasts.coverage(),
    ]);
    const families = [
      ...new Set(caseload.devices.filter((d) => d.status !== 'retired').map((d) => d.family)),
    ];
    const states: Record<string, number> = {};
    for (const r of rows) if (r.list !== 'open') states[r.state] = (states[r.state] ?? 0) + 1;
    return sendPage(
      reply,
      <OverviewPage
        context={context}
        verdicts={forecastAgainstVerdicts(caseload, past)}
        year={yearCounts(caseload, today)}
        turnaround={families.toSorted().map((f) => estimateTurnaround(caseload.jobs, f, today))}
        states={states}
        workloadSvg={chart ? await renderSvg(chart) : ''}
        coverage={coverage}
      />,
    );
  });

  app.get('/overview/workload.json', { config: { access: staff } }, async (request) => {
    const { chart } = await workload(request);
    return chart ?? {};
  });
}
