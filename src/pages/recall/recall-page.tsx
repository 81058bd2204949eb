import type { JobRun, RecallRow, RecallRun } from '../../store/contract.js';
import { actionNames, stateNames } from '../../words/action-names.js';
import { Chart } from '../child/child-page.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { Row } from './recall-row.js';
import { type RecallChange, type RecallQuery, ROWS_A_PAGE } from './recall-view.js';
import { type Levelling, Weeks } from './recall-weeks.js';
import { stateKeys } from './recall-words.js';

export interface RecallPageProps {
  readonly context: PageContext;
  readonly run: RecallRun | null;
  readonly job: JobRun | null;
  /** All rows that fit the filters. */
  readonly rows: readonly RecallRow[];
  readonly counts: {
    readonly all: number;
    readonly overdue: number;
    readonly neverSeen: number;
    readonly done: number;
  };
  readonly notForecast: number;
  readonly query: RecallQuery;
  readonly changes: readonly RecallChange[] | null;
  readonly capacitySvg: string;
  readonly overloads: readonly string[];
  readonly calendarUrl: string;
  /** How many rows need another week since the list was made. */
  readonly withoutWeek: number;
  /** Rows that a missing place makes too late. */
  readonly tooLate: readonly RecallRow[];
}

export function RecallPage(props: RecallPageProps) {
  const { context, run, job, rows, counts, query, changes } = props;
  const { format, today } = context;
  const shown = rows.slice(query.page * ROWS_A_PAGE, (query.page + 1) * ROWS_A_PAGE);
  const search = (change: Partial<Record<keyof RecallQuery, string | number>>) =>
    new URLSearchParams(
      Object.entries({ ...query, ...change }).map(([k, v]) => [k, String(v)] as [string, string]),
    ).toString();
  const working = job && (job.status === 'queued' || job.status === 'running');
  return (
    <Layout title="Recall list" context={context} scripts={['recall.js', 'charts.js']}>
      <div class="row between">
        <div>
          <h1>Recall list{run && `, ${monthName(run.month, format.locale)}`}</h1>
          {run && (
            <p>
              Made on {format.date(run.today)} from {counts.all} children due: today and Today and the next
              five weeks; see now and repair first, then by the harm of waiting. A child stays on the list
              until someone sets a state.
            </p>
          )}
        </div>
        <div class="row no-print">
          <form method="post" action="/recall/run">
            <Csrf context={context} />
            <button type="submit" class={run ? '' : 'main-action'} disabled={Boolean(working)}>
              {run ? 'Make the list again' : 'Make the list'}
            </button>
          </form>
          {run && (
            <>
              <a class="button" href={`/recall/letters?${search({ page: 0 })}`}>
                Letters
              </a>
              <a class="button" href={`/recall/list.csv?${search({ page: 0 })}`}>
                CSV
              </a>
              <a class="button" href={props.calendarUrl}>
                Calendar
              </a>
            </>
          )}
        </div>
      </div>
      {working && (
        <div class="card" role="status" data-job={job.id}>
          <label for="job">
            The list is being made: {job.done} of {job.total || '…'} children
            {job.message && `, ${job.message}`}
          </label>
          <progress id="job" max={Math.max(1, job.total)} value={job.done} />
          <p class="hint">Reload the page to see how far it is.</p>
        </div>
      )}
      {job?.status === 'done' && job.message && (
        <p class="notice" role="status">
          {job.message}.
        </p>
      )}
      {job?.status === 'failed' && (
        <p class="error" role="alert">
          The last list could not be made: {job.message || 'no reason given'}. The list below is the one
          before.
        </p>
      )}
      {!run ? (
        !working && <Empty>There is no list yet. Make the list to see who must be called.</Empty>
      ) : (
        <>
          <p class="row">
            <a
              href={`/recall?${search({ due: 'overdue', page: 0 })}`}
              class={counts.overdue > 0 ? 'tag due' : 'tag'}
            >
              {counts.overdue} overdue
            </a>
            <a
              href={`/recall?${search({ due: 'never-seen', page: 0 })}`}
              class={counts.neverSeen > 0 ? 'tag due' : 'tag'}
            >
              {counts.neverSeen} never measured
            </a>
            <a
              href={`/recall?${search({ due: 'not-forecast', page: 0 })}`}
              class={props.notForecast > 0 ? 'tag due' : 'tag'}
            >
              {props.notForecast} without a forecast: measure
            </a>
            <span class="tag calm">
              {counts.done} of {counts.all} done
            </span>
          </p>
          {props.withoutWeek > 0 && !working && (
            <form method="post" action="/recall/run" class="notice row">
              <Csrf context={context} />
              <span>
                {props.withoutWeek} {props.withoutWeek === 1 ? 'child needs' : 'children need'} another week:
                declined, not brought, or the clinic cannot keep it. Calls and appointments made stay when the
                list is made again; as few weeks move as can be.
              </span>
              <button type="submit">Give them a week</button>
            </form>
          )}
          {changes && changes.length > 0 && (
            <details class="card">
              <summary>
                {changes.length} {changes.length === 1 ? 'change' : 'changes'} since the list before
              </summary>
              <ul>
                {changes.slice(0, 60).map((c) => (
                  <li key={`${c.childId}${c.what}`}>
                    <a href={`/children/${encodeURIComponent(c.childId)}`}>{c.childName || c.childId}</a>:{' '}
                    {c.what}
                  </li>
                ))}
                {changes.length > 60 && <li>and {changes.length - 60} more</li>}
              </ul>
            </details>
          )}
          {props.capacitySvg && (
            <details class="card">
              <summary>
                Capacity by week
                {props.overloads.length > 0 && (
                  <>
                    {': '}
                    <span class="tag due">
                      over in the week of {props.overloads.map((w) => format.date(w)).join(', ')}
                    </span>
                  </>
                )}
              </summary>
              <Chart
                svg={props.capacitySvg}
                spec="/recall/capacity.json"
                label={
                  props.overloads.length > 0
                    ? `Casts a week against capacity. Over capacity: ${props.overloads.map((w) => format.date(w)).join(', ')}`
                    : 'Casts a week against capacity. No week is over.'
                }
              />
            </details>
          )}
          <Weeks
            levelling={run.summary.levelling as Levelling | undefined}
            late={props.tooLate}
            format={format}
          />
          <Filters query={query} />
          {rows.length === 0 ? (
            <Empty>
              {counts.all === 0
                ? 'Nobody is due this month. Usual reviews go on all the same.'
                : 'Nobody fits these filters.'}
            </Empty>
          ) : (
            <table class="stack card" id="recall">
              <caption>
                {rows.length} {rows.length === 1 ? 'child' : 'children'}.{' '}
                <span class="no-print">
                  Keys: <kbd>j</kbd> <kbd>k</kbd> move,{' '}
                  {stateKeys.map(([state, key]) => (
                    <span key={key}>
                      <kbd>{key}</kbd> {stateNames[state]}{' '}
                    </span>
                  ))}
                  <kbd>u</kbd> undo
                </span>
              </caption>
              <thead>
                <tr>
                  <th scope="col">Child</th>
                  <th scope="col">Wanted by</th>
                  <th scope="col">Why, to read out</th>
                  <th scope="col">Visit</th>
                  <th scope="col">State</th>
                </tr>
              </thead>
              <tbody>
                {shown.map((r) => (
                  <Row key={r.id} context={context} row={r} today={today} back={search({})} />
                ))}
              </tbody>
            </table>
          )}
          <nav class="pager" aria-label="Pages">
            {query.page > 0 && <a href={`/recall?${search({ page: query.page - 1 })}`}>Page before</a>}
            {(query.page + 1) * ROWS_A_PAGE < rows.length && (
              <a href={`/recall?${search({ page: query.page + 1 })}`} rel="next">
                Next page
              </a>
            )}
          </nav>
        </>
      )}
    </Layout>
  );
}

function Filters({ query }: { query: RecallQuery }) {
  const option = (value: string, label: string, chosen: string) => (
    <option key={value} value={value} selected={value === chosen}>
      {label}
    </option>
  );
  return (
    <form method="get" action="/recall" aria-label="Find and filter" class="row card">
      <p class="field">
        <label for="filter-text">Name, number or contact</label>
        <input id="filter-text" name="text" type="search" value={query.text} size={20} />
      </p>
      <p class="field">
        <label for="filter-state">State</label>
        <select id="filter-state" name="state">
          {option('', 'all', query.state)}
          {option('open', 'still open', query.state)}
          {Object.entries(stateNames).map(([value, label]) => option(value, label, query.state))}
        </select>
      </p>
      <p class="field">
        <label for="filter-action">What for</label>
        <select id="filter-action" name="action">
          {option('', 'anything', query.action)}
          {Object.entries(actionNames).map(([value, label]) => option(value, label, query.action))}
        </select>
      </p>
      <p class="field">
        <label for="filter-due">Who</label>
        <select id="filter-due" name="due">
          {option('', 'everyone due', query.due)}
          {option('overdue', 'overdue', query.due)}
          {option('never-seen', 'never measured', query.due)}
          {option('not-forecast', 'without a forecast', query.due)}
          {option('open', 'not due, could fill a slot', query.due)}
        </select>
      </p>
      <p>
        <button type="submit">Show</button>
      </p>
    </form>
  );
}

const monthName = (iso: string, locale: string) =>
  new Intl.DateTimeFormat(locale === 'en' ? 'en-GB' : locale, {
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  }).format(new Date(`${iso.slice(0, 7)}-01T00:00:00Z`));
