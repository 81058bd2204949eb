import type { FastifyInstance } from 'fastify';
import { capacityChart } from '../../charts/capacity-chart.js';
import { staff } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { drawFor } from '../parts/chart.js';
import { pagesOf } from '../parts/pages-of.js';
import type { Levelling } from '../recall/recall-weeks.js';
import { overviewCounts } from './overview-counts.js';
import { OverviewPage } from './overview-page.js';

export function registerOverviewPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get } = pagesOf(app, deps);
  const counts = overviewCounts(deps);

  get('/overview', staff, async ({ request }) => {
    const [counted, [run]] = await Promise.all([counts(), store.recall.inUse()]);
    const levelling = run?.summary.levelling as Levelling | undefined;
    const weeks = (levelling?.weeks ?? []).map((w) => ({
      weekStart: w.week,
      load: w.used,
      capacity: w.slots,
    }));
    return (
      <OverviewPage
        counts={counted}
        workload={
          weeks.length > 0 ? await drawFor(request, (widthPx) => capacityChart({ weeks, widthPx })) : null
        }
      />
    );
  });
}
