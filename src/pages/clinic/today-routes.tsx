import type { FastifyInstance } from 'fastify';
import { isRungToday } from '../../recall/contract.js';
import { addDaysIso } from '../../records/dates.js';
import { planners, writersOf } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { isUnderWay, type RecallBrief, type RecallRow, type WaitingAnswer } from '../../store/contract.js';
import { clinicianWhy } from '../../words/clinician-reason.js';
import { WaitingAnswers } from '../family/family-answers.js';
import { Form, InputField } from '../parts/form.js';
import { Empty, Layout, NoChildYet } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { pagesOf } from '../parts/pages-of.js';
import { childPath, Go } from '../parts/paths.js';
import { Columns } from '../parts/table.js';
import { Reach, rowColumns, WantedRow } from '../parts/wanted-row.js';

/** So many names are read before one starts. */
const SHOWN = 12;
const OVER = ['done', 'declined', 'moved-away'];

export function registerTodayPage(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  pagesOf(app, deps).get('/today', planners, async ({ request, query, actor, today }) => {
    const [[run], [job]] = await Promise.all([store.recall.inUse(), store.jobRuns.latest('recall')]);
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
        making={isUnderWay(job)}
        anyChild={run !== undefined || (await store.children.count({ status: 'any' })) > 0}
      />
    );
  });
}

interface TodayPageProps {
  /** See now and repair, in working order. */
  readonly urgent: readonly RecallRow[];
  readonly waiting: readonly WaitingAnswer[];
  readonly appointments: readonly RecallRow[];
  /** The rest of the list in working order. */
  readonly byHarm: readonly RecallRow[];
  /** The reader's own children or everybody's; null where no child has a clinician of its own. */
  readonly whose: 'mine' | 'all' | null;
  readonly more: number;
  /** The day the list was made; null before the first. */
  readonly listMade: string | null;
  /** One is being made now. */
  readonly making: boolean;
  readonly anyChild: boolean;
}

/** Where a clinician starts: who is here today and tomorrow, who cannot wait, who comes next. */
function TodayPage(props: TodayPageProps) {
  const { urgent, appointments, byHarm, whose, more, listMade } = props;
  const { format, today } = usePage();
  return (
    <Layout title="Today">
      <h1>Today, {format.longDate(today)}</h1>
      <Form method="get" action="/children" class="row card find" aria-label="Find a child" send="Find" main>
        <InputField
          label="Find a child: name, initials, number or birth date"
          name="text"
          type="search"
          wide
          autofocus
        />
      </Form>
      {!props.anyChild && <NoChildYet />}
      {props.anyChild && listMade === null && (
        <Empty>
          There is no recall list yet.{' '}
          <a href="/recall">{props.making ? 'The first one is being made' : 'Make the first one'}</a> to see
          who comes next.
        </Empty>
      )}
      <WaitingAnswers waiting={props.waiting} />
      <Section title="Ring or see today" rows={urgent} rings />
      <Section
        title="Booked for today and tomorrow"
        rows={appointments}
        empty="Nobody on the recall list is booked for today or tomorrow."
      />
      {listMade !== null && (
        <Section
          title={whose === 'mine' ? 'My children, most harm of waiting first' : 'Most harm of waiting first'}
          rows={byHarm}
          empty="Nobody is due in the next five weeks. Usual reviews go on all the same."
        >
          {whose !== null && (
            <p>
              <a href={whose === 'mine' ? '/today?whose=all' : '/today'}>
                {whose === 'mine' ? 'Show everybody’s children' : 'Show my children'}
              </a>
            </p>
          )}
        </Section>
      )}
      {listMade !== null && (
        <p>
          <a href="/recall">
            {more > 0 ? `${more} more on the recall list` : 'The recall list'} of {format.date(listMade)}
          </a>
        </p>
      )}
    </Layout>
  );
}

function Section(props: {
  title: string;
  rows: readonly RecallRow[];
  empty?: string;
  /** The family has to be rung: how stands in the row. */
  rings?: boolean;
  children?: preact.ComponentChildren;
}) {
  const { title, rows, empty, rings, children } = props;
  const { user } = usePage();
  if (rows.length === 0 && !empty) return null;
  return (
    <section class="card" aria-label={title}>
      <h2>{title}</h2>
      {rows.length === 0 ? (
        <p>{empty}</p>
      ) : (
        <table class="stack recall today">
          <Columns of={rowColumns('Why', 'Next')} />
          <tbody>
            {rows.map((row) => (
              <WantedRow key={row.id} row={row} why={clinicianWhy(row.entry)} named>
                {rings && <Reach row={row} />}
                {user && writersOf.measurements.includes(user.role) && (
                  <Go to={childPath(row.childId, '/visit')}>
                    Enter the visit<span class="unseen"> of {row.childName || row.childId}</span>
                  </Go>
                )}
              </WantedRow>
            ))}
          </tbody>
        </table>
      )}
      {children}
    </section>
  );
}
