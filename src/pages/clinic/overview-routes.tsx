import type { FastifyInstance } from 'fastify';
import { capacityChart } from '../../charts/capacity-chart.js';
import { datesHeldChart } from '../../charts/dates-held-chart.js';
import type { IsoDate } from '../../records/dates.js';
import { staff } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { lastAnswer } from '../../service/last-answer.js';
import { slotsByWeek } from '../../service/slots-by-week.js';
import type { ClinicSettings, RecallBrief } from '../../store/contract.js';
import { drawFor, NOT_DRAWN } from '../parts/chart.js';
import { pagesOf } from '../parts/pages-of.js';
import { FEWEST_JUDGED } from './forecasts-held.js';
import { overviewCounts } from './overview-counts.js';
import { OverviewPage } from './overview-page.js';
import { castsByWeek } from './overview-view.js';
import type { CastAhead } from './workload-ahead.js';

const WEEKS_AHEAD = 26;

export function registerOverviewPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const { get } = pagesOf(app, deps);
  const counts = overviewCounts(deps);
  const weeksOf = lastAnswer(
    (rows: readonly RecallBrief[], settings: ClinicSettings, today: IsoDate, ahead: readonly CastAhead[]) =>
      castsByWeek(rows, slotsByWeek(settings, today, WEEKS_AHEAD), ahead),
  );

  const workload = async () => {
    const [run] = await store.recall.inUse();
    const rows = run ? await store.recall.briefs(run.id, {}) : [];
    const { value: settings } = await store.settings.get();
    const { ahead } = await counts();
    const weeks = weeksOf(rows, settings, clock.today(), ahead.all);
    const chart = (widthPx?: number) => capacityChart({ weeks, widthPx });
    return { rows, chart: run ? chart : null };
  };

  get('/overview', staff, async ({ request }) => {
    const model = deps.assessor.shippedModel();
    const [counted, { rows, chart }, coverage, learned] = await Promise.all([
      counts(),
      workload(),
      store.forecasts.coverage(),
      store.populationOffsets.latest(model),
    ]);
    const { held } = counted;
    const enough = held.judged >= FEWEST_JUDGED;
    const states: Record<string, number> = {};
    for (const r of rows) if (r.list !== 'open') states[r.state] = (states[r.state] ?? 0) + 1;
    return (
      <OverviewPage
        {...{ learned, model, states, coverage }}
        counts={counted}
        dates={enough ? await drawFor(request, (px) => datesHeldChart(held.dates, px)) : NOT_DRAWN}
        workload={chart && (await drawFor(request, chart))}
      />
    );
  });

  get('/overview/workload.json', staff, async ({ reply }) => reply.send((await workload()).chart?.() ?? {}));

  get('/overview/dates-held.json', staff, async ({ reply }) =>
    reply.send(datesHeldChart((await counts()).held.dates)),
  );
}
