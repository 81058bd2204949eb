import { familyLabel } from '../../charts/device-label.js';
import { counted } from '../../records/counted.js';
import { planners } from '../../records/roles.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Facts, Table } from '../parts/table.js';
import { ForecastsHeld } from './forecasts-held.js';
import type { OverviewCounts } from './overview-counts.js';

/** For whoever leads the clinic: did the forecasts hold, how long does the workshop take, what is coming. */
export function OverviewPage(props: { counts: OverviewCounts; workload: Drawn | null }) {
  const { counts, workload } = props;
  const { waits, year, turnaround } = counts;
  const { format, user } = usePage();
  const plans = user !== null && planners.includes(user.role);
  const aChild = (n: number) => `${format.number(n / Math.max(1, year.children), 1)} a child`;
  const waited =
    waits.middleDays === null
      ? 'no replaced device was judged outgrown'
      : `${format.number(waits.middleDays)} days until the next was fitted (the middle of ${waits.n})`;
  return (
    <Layout titled title="Overview">
      <section>
        <h2>Workload ahead</h2>
        {workload ? (
          <>
            <Chart drawn={workload} label="Visits planned, by week, against the clinic's places" />
            <p class="hint">
              Every visit of the plan: casts, checks, reviews, measuring and adjusting, as it stood when the
              list was made. Who comes late for want of a place is on the{' '}
              {plans ? <a href="/recall">recall list</a> : 'recall list'}.
            </p>
          </>
        ) : (
          <Empty>No recall list with weeks has been made yet.</Empty>
        )}
      </section>
      <section>
        <h2>The last twelve months</h2>
        <Facts
          of={[
            ['Active children', format.number(year.children)],
            ['Visits with a measurement', `${format.number(year.visits)} (${aChild(year.visits)})`],
            [
              'Casts',
              `${format.number(year.casts)} (${aChild(year.casts)}), ${format.number(year.firstCasts)} of them the first of their kind`,
            ],
            ['Wait after outgrown', waited],
            ['Never measured', format.number(year.neverMeasured)],
            ['Not measured for a year', format.number(year.notSeenForAYear)],
          ]}
        />
      </section>
      <section>
        <h2>Days from cast to fitting</h2>
        <Table
          empty="No devices yet."
          rows={turnaround}
          columns={[
            ['Family', (t) => familyLabel(t.family)],
            ['Half within', (t) => t.p50Days, 'number'],
            ['8 in 10 within', (t) => t.p80Days, 'number'],
            ['From', (t) => (t.basis === 'default' ? 'usual practice' : counted(t.jobsUsed, 'job'))],
          ]}
        />
      </section>
      <ForecastsHeld held={counts.held} />
    </Layout>
  );
}
