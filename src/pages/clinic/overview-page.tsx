import type { VNode } from 'preact';
import { familyLabel } from '../../charts/device-label.js';
import type { TurnaroundEstimate } from '../../recall/contract.js';
import { counted } from '../../records/counted.js';
import { stateNames } from '../../words/action-names.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Table } from '../parts/table.js';
import type { Waits, YearCounts } from './overview-view.js';

/** For whoever leads the clinic: did the forecasts hold, how long does the workshop take, what is coming. */
export function OverviewPage(props: {
  /** Forecasts against verdicts. */
  held: VNode;
  /** What the clinic's own children taught the forecasts. */
  learned: VNode;
  waits: Waits;
  year: YearCounts;
  turnaround: readonly TurnaroundEstimate[];
  states: Readonly<Record<string, number>>;
  workload: Drawn | null;
  /** Months ahead by family, and why devices ended. */
  months: VNode;
  coverage: { readonly done: number; readonly total: number };
}) {
  const { held, learned, waits, year, turnaround, states, workload, coverage } = props;
  const { format } = usePage();
  return (
    <Layout title="Overview" scripts={['charts.js']}>
      <h1>Overview</h1>
      <section>
        <h2>Workload ahead</h2>
        {workload ? (
          <Chart
            drawn={workload}
            spec="/overview/workload.json"
            label="Appointments to cast, by week, against capacity"
          />
        ) : (
          <Empty>No recall list has been made yet.</Empty>
        )}
        {props.months}
      </section>
      <div class="cards">
        <section>
          <h2>The last twelve months</h2>
          <dl class="facts">
            <dt>Active children</dt>
            <dd>{format.number(year.children)}</dd>
            <dt>Visits with a measurement</dt>
            <dd>
              {format.number(year.visits)} ({format.number(year.visits / Math.max(1, year.children), 1)} a
              child)
            </dd>
            <dt>Casts</dt>
            <dd>
              {format.number(year.casts)} ({format.number(year.casts / Math.max(1, year.children), 1)} a
              child), {format.number(year.firstCasts)} of them the first of their kind
            </dd>
            <dt>Wait after outgrown</dt>
            <dd>
              {waits.middleDays === null
                ? 'no replaced device was judged outgrown'
                : `${format.number(waits.middleDays)} days until the next was fitted (the middle of ${waits.n})`}
            </dd>
            <dt>Never measured</dt>
            <dd>{format.number(year.neverMeasured)}</dd>
            <dt>Not measured for a year</dt>
            <dd>{format.number(year.notSeenForAYear)}</dd>
            <dt>Forecasts computed</dt>
            <dd>
              {format.number(coverage.done)} of {format.number(coverage.total)} children
            </dd>
          </dl>
        </section>
        <section>
          <h2>Calls of this list</h2>
          {Object.keys(states).length === 0 ? (
            <Empty>No list yet.</Empty>
          ) : (
            <dl class="facts">
              {Object.entries(stateNames).map(([state, word]) => (
                <>
                  <dt>{word}</dt>
                  <dd>{states[state] ?? 0}</dd>
                </>
              ))}
            </dl>
          )}
        </section>
      </div>
      <section>
        <h2>Days from cast to fitting</h2>
        {turnaround.length === 0 ? (
          <Empty>No devices yet.</Empty>
        ) : (
          <Table
            rows={turnaround}
            columns={[
              ['Family', (t) => familyLabel(t.family)],
              ['Half within', (t) => t.p50Days, 'number'],
              ['8 in 10 within', (t) => t.p80Days, 'number'],
              ['From', (t) => (t.basis === 'default' ? 'usual practice' : counted(t.jobsUsed, 'job'))],
            ]}
          />
        )}
      </section>
      {held}
      {learned}
    </Layout>
  );
}
