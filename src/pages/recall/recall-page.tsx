import { capital } from '../../forecast/words.js';
import type { Action } from '../../recall/contract.js';
import type { ClinicWeekInput } from '../../recall/level/clinic-week.js';
import { ringAgainOf } from '../../recall/ring-again.js';
import { counted } from '../../records/counted.js';
import { writersOf } from '../../records/roles.js';
import type { seeNowPlaces } from '../../service/see-now-places.js';
import {
  isUnderWay,
  type JobRun,
  type RecallBrief,
  type RecallRow,
  type RunHead,
  type WaitingAnswer,
} from '../../store/contract.js';
import { actionNames, stateNames } from '../../words/action-names.js';
import { clinicianWhy } from '../../words/clinician-reason.js';
import { RingToday } from '../family/family-answers.js';
import { Form, Problem, Submit } from '../parts/form.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';
import { Columns } from '../parts/table.js';
import { Reach, rowColumns, WantedRow } from '../parts/wanted-row.js';
import { CallState, type RefusedCall, stateKeys } from './recall-call.js';
import { Filters, JobState, Tools } from './recall-tools.js';
import { addressOf, groupByAction, LINES_SHOWN, type RecallQuery, ROWS_A_PAGE } from './recall-view.js';
import { type Levelling, Weeks } from './recall-weeks.js';

export interface RecallPageProps {
  readonly run: RunHead | null;
  readonly job: JobRun | null;
  /** All rows that fit the filters, and those of them on this page. */
  readonly rows: readonly RecallBrief[];
  readonly shown: readonly RecallRow[];
  /** Of the children that the plan's explanations name. */
  readonly names: ReadonlyMap<string, string>;
  readonly counts: {
    readonly all: number;
    readonly overdue: number;
    readonly neverSeen: number;
    readonly done: number;
  };
  readonly waiting: readonly WaitingAnswer[];
  readonly query: RecallQuery;
  readonly gone: readonly RecallBrief[];
  /** How many rows need another week since the list was made. */
  readonly withoutWeek: number;
  readonly tooLate: readonly RecallBrief[];
  readonly seeNow: ReturnType<typeof seeNowPlaces>;
  readonly refused: RefusedCall | null;
  /** Its week: when a family that was left a message is rung again. */
  readonly clinic: ClinicWeekInput;
}

/** The scheduler's list: who must be rung, for what, by when. The list comes first, what explains it after it. */
export function RecallPage(props: RecallPageProps) {
  const { format } = usePage();
  const { run, job, rows, query } = props;
  const working = isUnderWay(job);
  return (
    <Layout title="Recall list" scripts={['recall.js']}>
      <div class="row between recall-head">
        <div>
          <h1>Recall list</h1>
          {run && (
            <p>
              {format.date(run.today)} to {format.date(String(run.summary.until ?? run.today))}.{' '}
              {counted(props.counts.all, 'child', 'children')},{' '}
              {props.counts.done === 0 ? 'none' : props.counts.done} done.
            </p>
          )}
        </div>
        <Tools run={run} working={working} query={query} />
      </div>
      <Problem error={props.refused?.problem ?? ''} />
      <RingToday waiting={props.waiting} />
      <JobState job={job} working={working} />
      {!run && !working && <Empty>There is no list yet. Make the list to see who must be called.</Empty>}
      {run && (
        <>
          {props.withoutWeek > 0 && !working && <NeedWeek children={props.withoutWeek} />}
          {props.gone.length > 0 && <BookedAndGone {...props} />}
          <Filters query={query} />
          <Narrow {...props} />
          <SeeNow {...props.seeNow} />
          {rows.length === 0 ? (
            <Empty>
              {props.counts.all === 0
                ? 'Nobody is due. Usual reviews go on all the same.'
                : 'Nobody fits these filters.'}
            </Empty>
          ) : (
            <List {...props} />
          )}
          <h2>About this list</h2>
          <p>
            See now and repair come first; within each group those whom waiting harms most. A child stays on
            the list until someone sets a state.
          </p>
          <Weeks
            levelling={run.summary.levelling as Levelling | undefined}
            late={props.tooLate}
            names={props.names}
          />
        </>
      )}
    </Layout>
  );
}

function List({ rows, shown, query, clinic, refused }: RecallPageProps) {
  const { format, user } = usePage();
  const atBench = user && writersOf.measurements.includes(user.role);
  const from = query.whole ? 0 : query.page * ROWS_A_PAGE;
  const part = shown.length < rows.length;
  const back = addressOf(query);
  return (
    <>
      <p class="keys no-print">
        Keys: <kbd>j</kbd> <kbd>k</kbd> or <kbd>↓</kbd> <kbd>↑</kbd> move,{' '}
        {stateKeys.map(([state, key]) => (
          <span key={key}>
            <kbd>{key}</kbd> {stateNames[state]}{' '}
          </span>
        ))}
        <kbd>u</kbd> undo, <kbd>/</kbd> find{' '}
        <label hidden>
          <input type="checkbox" id="letter-keys" checked autocomplete="off" /> letters act as keys
        </label>
      </p>
      <table class="stack card recall" id="recall">
        <caption>
          {counted(rows.length, 'child', 'children')}
          {part && `, ${from + 1} to ${from + shown.length} on this page`}
        </caption>
        <Columns of={rowColumns('Why, to read out', 'Call')} />
        {groupByAction(shown).map(({ action, rows: own }) => (
          <tbody key={action} id={`do-${action}`}>
            <tr class="group">
              <th scope="rowgroup" colSpan={5}>
                {capital(actionNames[action])} <small>{counted(own.length, 'child', 'children')}</small>
              </th>
            </tr>
            {own.map((r) => (
              <WantedRow
                key={r.id}
                row={r}
                why={
                  <>
                    {r.entry.reason.text}
                    {atBench && <small class="at-bench">Clinician: {clinicianWhy(r.entry)}</small>}
                  </>
                }
              >
                <Reach row={r} />
                <CallState
                  row={r}
                  back={back}
                  again={ringAgainOf(r, format.dayOf, clinic)}
                  refused={refused}
                />
              </WantedRow>
            ))}
          </tbody>
        ))}
      </table>
      {part && (
        <nav class="pager" aria-label="Pages">
          {query.page > 0 && (
            <a href={`/recall?${addressOf(query, { page: query.page - 1 })}`}>Page before</a>
          )}
          {from + ROWS_A_PAGE < rows.length && (
            <a href={`/recall?${addressOf(query, { page: query.page + 1 })}`} rel="next">
              Next page
            </a>
          )}
          <a href={`/recall?${addressOf(query, { page: 0, whole: true })}`}>All on one page</a>
        </nav>
      )}
    </>
  );
}

function Narrow({ counts, rows, shown, query, tooLate }: RecallPageProps) {
  // A group may begin on another page: then it is asked for alone.
  const to = (action: Action) =>
    shown.length < rows.length ? `/recall?${addressOf(query, { action, page: 0 })}` : `#do-${action}`;
  const only = (due: string, n: number, label: string) =>
    n > 0 && (
      <a href={`/recall?${addressOf(query, { due, page: 0 })}`} class="tag due">
        {n} {label}
      </a>
    );
  return (
    <nav class="strip no-print" aria-label="Groups of the list">
      {only('overdue', counts.overdue, 'late')}
      {only('never-seen', counts.neverSeen, 'never measured')}
      {tooLate.length > 0 && (
        <a href="#too-few" class="tag due">
          {tooLate.length} too late for want of places
        </a>
      )}
      {groupByAction(rows).map((g) => (
        <a key={g.action} href={to(g.action)} class="tag">
          {g.rows.length} {actionNames[g.action]}
        </a>
      ))}
    </nav>
  );
}

/** Whoever must be seen now stands outside the plan of the weeks: is there a place? */
function SeeNow({ wanted, days }: RecallPageProps['seeNow']) {
  const { format, today } = usePage();
  if (wanted === 0) return null;
  const free = days.map((d) => `${d.free} ${d.day === today ? 'today' : `on ${format.date(d.day)}`}`);
  return (
    <p>
      <strong>{counted(wanted, 'child', 'children')} to be seen now.</strong>{' '}
      {free.length > 0 ? `Places free: ${free.join(', ')}.` : 'No place today or on the next working day.'}
    </p>
  );
}

const NeedWeek = ({ children: n }: { children: number }) => (
  <Form action="/recall/run" class="notice row">
    <span>
      {counted(n, 'child needs', 'children need')} another week: declined, not brought, or the clinic cannot
      keep it. Calls and appointments made stay; as few weeks move as can be.
    </span>
    <Submit>Give them a week</Submit>
  </Form>
);

const BookedAndGone = ({ gone, names }: Pick<RecallPageProps, 'gone' | 'names'>) => (
  <p class="notice">
    Booked from the list before, and not wanted by this one. Is the visit still wanted?{' '}
    {gone.slice(0, LINES_SHOWN).map((r, i) => (
      <span key={r.id}>
        {i > 0 && ', '}
        <a href={childPath(r.childId)}>{names.get(r.childId) || r.childId}</a>
      </span>
    ))}
  </p>
);
