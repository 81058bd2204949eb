import { deviceLabels } from '../../charts/device-label.js';
import { capital } from '../../forecast/words.js';
import type { RecallRow } from '../../store/contract.js';
import { actionNames, alertNames } from '../../words/action-names.js';
import { Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

export interface TodayPageProps {
  readonly context: PageContext;
  /** See now and repair, in working order. */
  readonly urgent: readonly RecallRow[];
  readonly appointments: readonly RecallRow[];
  /** The rest of the list in working order. */
  readonly byHarm: readonly RecallRow[];
  /** How many of the list are not shown here. */
  readonly more: number;
  /** The day the list was made; null before the first. */
  readonly listMade: string | null;
}

/** Where a clinician starts: who is here today and tomorrow, who cannot wait, who comes next. */
export function TodayPage(props: TodayPageProps) {
  const { context, urgent, appointments, byHarm, more, listMade } = props;
  const { format, today } = context;
  return (
    <Layout title="Today" context={context}>
      <h1>Today, {format.longDate(today)}</h1>
      <form method="get" action="/children" class="row card" aria-label="Find a child">
        <p class="field wide">
          <label for="text">Find a child: name, initials, number or birth date</label>
          <input id="text" name="text" type="search" autofocus />
        </p>
        <p>
          <button type="submit" class="main-action">
            Find
          </button>
        </p>
      </form>
      {listMade === null && (
        <Empty>
          There is no recall list yet. <a href="/recall">Make the first one</a> to see who comes next.
        </Empty>
      )}
      {urgent.length > 0 && <Section title="Ring or see today" rows={urgent} context={context} />}
      <Section
        title="Booked for today and tomorrow"
        rows={appointments}
        context={context}
        empty="Nobody on the recall list is booked for today or tomorrow."
      />
      {listMade !== null && (
        <Section
          title="Who comes next, by the harm of waiting"
          rows={byHarm}
          context={context}
          empty="Nobody is due in the next five weeks. Usual reviews go on all the same."
        />
      )}
      <p>
        {more > 0 && (
          <a href="/recall">
            {more} more on the recall list of {format.date(listMade ?? today)}
          </a>
        )}
      </p>
    </Layout>
  );
}

function Section(props: { title: string; rows: readonly RecallRow[]; context: PageContext; empty?: string }) {
  const { title, rows, context, empty } = props;
  const { format, today } = context;
  if (rows.length === 0 && !empty) return null;
  return (
    <section class="card" aria-label={title}>
      <h2>{title}</h2>
      {rows.length === 0 ? (
        <p>{empty}</p>
      ) : (
        <ul class="today">
          {rows.map((r) => (
            <li key={r.id}>
              <a href={`/children/${encodeURIComponent(r.childId)}`}>{r.childName || r.childId}</a>{' '}
              {r.entry.alerts.map((alert) => (
                <span key={alert} class={`tag ${alert}`}>
                  {alertNames[alert]}
                </span>
              ))}{' '}
              <strong>{capital(actionNames[r.entry.action])}</strong>
              {r.entry.dueBy && ` by ${format.date(r.entry.dueBy)}`}
              {r.appointment && `, booked ${r.appointment === today ? 'today' : format.date(r.appointment)}`}:{' '}
              {deviceLabels(r.entry.devices) || 'no device'}.{' '}
              <a href={`/children/${encodeURIComponent(r.childId)}/visit`}>Enter the visit</a>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
