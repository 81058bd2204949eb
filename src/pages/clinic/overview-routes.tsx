import type { FastifyInstance } from 'fastify';
import { capacityChart } from '../../charts/capacity-chart.js';
import { datesHeldChart } from '../../charts/dates-held-chart.js';
import { staff } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { drawFor, NOT_DRAWN } from '../parts/chart.js';
import { pagesOf } from '../parts/pages-of.js';
import type { Levelling } from '../recall/recall-weeks.js';
import { FEWEST_JUDGED } from './forecasts-held.js';
import { overviewCounts } from './overview-counts.js';
import { OverviewPage } from './overview-page.js';

export function registerOverviewPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get } = pagesOf(app, deps);
  const counts = overviewCounts(deps);

  get('/overview', staff, async ({ request }) => {
    const model = deps.assessor.shippedModel();
    const [counted, [run], coverage, learned] = await Promise.all([
      counts(),
      store.recall.inUse(),
      store.forecasts.coverage(),
      store.populationOffsets.latest(model),
    ]);
    const { held } = counted;
    const enough = held.judged >= FEWEST_JUDGED;
    const levelling = run?.summary.levelling as Levelling | undefined;
    const weeks = (levelling?.weeks ?? []).map((w) => ({
      weekStart: w.week,
      load: w.used,
      capacity: w.slots,
    }));
    return (
      <OverviewPage
        {...{ learned, model, coverage }}
        counts={counted}
        dates={enough ? await drawFor(request, (px) => datesHeldChart(held.dates, px)) : NOT_DRAWN}
        workload={
          weeks.length > 0 ? await drawFor(request, (widthPx) => capacityChart({ weeks, widthPx })) : null
        }
      />
    );
  });
}
