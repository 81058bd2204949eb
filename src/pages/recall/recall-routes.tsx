import type { FastifyInstance } from 'fastify';
import { recallColumns, recallTable } from '../../exchange/csv/recall-columns.js';
import type { WorkState } from '../../recall/contract.js';
import { clinicDays } from '../../recall/level/clinic-week.js';
import type { IsoDate } from '../../records/dates.js';
import { planners } from '../../records/roles.js';
import { calendarFeedPath } from '../../service/calendar-feed.js';
import { calendarOf } from '../../service/calendar-of.js';
import { clinicWeekOf } from '../../service/clinic-week-of.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { lastAnswer } from '../../service/last-answer.js';
import { readLanguages } from '../../service/native-readers.js';
import { seeNowPlaces } from '../../service/see-now-places.js';
import { setRecallState, undoRecallState } from '../../service/set-recall-state.js';
import { type ClinicSettings, callState, type RecallBrief, type RecallRow } from '../../store/contract.js';
import { actionNames, stateNames } from '../../words/action-names.js';
import { type Asked, cannotBe, type Fields, pagesOf, refusalOf, typedRecord } from '../parts/pages-of.js';
import { wholeAddress } from '../parts/paths.js';
import { CalendarPage } from './calendar-page.js';
import { LettersPage } from './letters-page.js';
import type { RefusedCall } from './recall-call.js';
import { RecallPage } from './recall-page.js';
import { bookedAndGone, filterRows, type RecallQuery, shownOf, withoutWeek } from './recall-view.js';

/** Nobody who has a date, said no or moved away is written to. */
const LETTER_STATES: readonly WorkState[] = ['to-call', 'called', 'left-message', 'did-not-come'];

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of pages, each short
export function registerRecallPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, jobs } = deps;
  const { get, post, save } = pagesOf(app, deps);
  // The same for everybody who opens the list, until somebody is called or another is made.
  const needWeek = lastAnswer((due: readonly RecallBrief[], settings: ClinicSettings, today: IsoDate) =>
    withoutWeek(due, today, clinicDays(clinicWeekOf(settings))),
  );

  /** The rows that fit the filters in an address, in the order of the list. */
  const rowsOf = async (asked: Asked): Promise<readonly RecallRow[]> => {
    const [run] = await store.recall.inUse();
    if (!run) return [];
    const query = queryOf(asked.query);
    const fits = filterRows(await store.recall.briefs(run.id, { text: query.text }), query);
    return store.recall.entries(run.id, { ids: fits.map((r) => r.id) }, asked.actor);
  };

  const listPage = async (
    { reply, actor, today }: Asked,
    asked: Fields,
    refused: RefusedCall | null = null,
  ) => {
    const query = queryOf(asked);
    const [[run = null, before], [job], { value: settings }] = await Promise.all([
      store.recall.inUse(),
      store.jobRuns.latest('recall'),
      store.settings.get(),
    ]);
    const briefs = (filter: {
      readonly due?: boolean;
      readonly text?: string;
    }): Promise<readonly RecallBrief[]> => (run ? store.recall.briefs(run.id, filter) : Promise.resolve([]));
    const [due, found, old] = await Promise.all([
      briefs({ due: true }),
      query.text.trim() !== '' || query.due === 'open'
        ? briefs({ due: query.due !== 'open', text: query.text })
        : null,
      before ? store.recall.briefs(before.id, { due: true }) : [],
    ]);
    const rows = filterRows(found ?? due, query);
    const gone = bookedAndGone(old, due, today);
    const tooLate = due.filter((r) => r.entry.tooLate);
    const named = [...gone, ...tooLate].map((r) => r.childId);
    const [shown, names, waiting] = await Promise.all([
      run ? store.recall.entries(run.id, { ids: shownOf(rows, query).map((r) => r.id) }, actor) : [],
      store.children.names([...new Set(named)], actor),
      store.familyQuestions.waiting(actor),
    ]);
    // The list that was asked for is below.
    const ready = asked.notice === 'run-started' && job?.status === 'done';
    return reply.page(
      <RecallPage
        {...{ run, rows, shown, names, waiting, query, tooLate, gone, refused }}
        job={job ?? null}
        counts={{
          all: due.length,
          overdue: due.filter((r) => r.entry.late).length,
          neverSeen: due.filter((r) => r.entry.lastSeen === null).length,
          done: due.filter((r) => r.state === 'done').length,
        }}
        withoutWeek={needWeek(due, settings, today).length}
        seeNow={seeNowPlaces(due, settings, today)}
        clinic={clinicWeekOf(settings)}
      />,
      refused ? 422 : 200,
      ready ? { notice: '' } : {},
    );
  };
  get('/recall', planners, (asked) => listPage(asked, asked.query));

  post('/recall/run', planners, async ({ reply, body, actor }) => {
    const { month = '' } = body;
    if (month !== '' && !/^\d{4}-(0[1-9]|1[0-2])$/.test(month))
      cannotBe('month', month, 'YYYY-MM, or nothing for today and the next five weeks');
    const runId = await jobs.startRecallRun(month ? `${month}-01` : null);
    await store.audit.record(actor, 'start', 'recall-run', { runId });
    return reply.redirect('/recall?notice=run-started', 303);
  });

  // Refused, the list stands as it was filtered, with why.
  post('/recall/entries/:entry/state', planners, async (asked) => {
    const { reply, params, body, today, actor: asker } = asked;
    const problem = await refusalOf(
      reply.save(async (tx, actor) => {
        const { appointment = null, ...said } = typedRecord(callState, body);
        // The form has a day in it whatever is said; only a booking is for that day.
        const change = { ...said, ...(said.state === 'booked' ? { appointment } : {}) };
        const version = body.version ? Number(body.version) : null;
        await setRecallState(tx, params.entry, change, version, today, actor);
        return backTo(body, params.entry, 'state-saved');
      }),
    );
    if (!problem) return reply;
    const { childName, childId } = await store.recall.entry(params.entry, asker);
    const filters = Object.fromEntries(new URLSearchParams(body.back));
    return listPage(asked, filters, {
      ...{ entry: params.entry, appointment: body.appointment, note: body.note },
      problem: `${childName || childId}: ${problem}. Nothing was saved.`,
    });
  });

  save('/recall/entries/:entry/undo', planners, async ({ tx, params: { entry }, body, actor, today }) => {
    await undoRecallState(tx, entry, today, actor);
    return backTo(body, entry, 'state-undone');
  });

  get('/recall/letters', planners, async (asked) => {
    const rows = (await rowsOf(asked)).filter((r) => LETTER_STATES.includes(r.state));
    const { value: settings } = await store.settings.get();
    await exported(asked, 'letters', rows);
    const { rules } = (await deps.assessor.current()).context;
    const languages = await readLanguages(store);
    return <LettersPage rows={rows} contact={settings.contact} rules={rules} languages={languages} />;
  });

  get('/recall/list.csv', planners, async (asked) => {
    const rows = await rowsOf(asked);
    await exported(asked, 'list.csv', rows);
    return asked.reply
      .type('text/csv; charset=utf-8')
      .header('content-disposition', 'attachment; filename="recall-list.csv"')
      .send(recallTable(rows.map(csvRow)));
  });

  get('/recall/calendar', planners, async ({ request, actor }) => {
    const path = await calendarFeedPath(store, actor.userId);
    return <CalendarPage url={wholeAddress(request, deps, path)} />;
  });

  get('/recall/calendar.ics', planners, async (asked) => {
    const [run] = await store.recall.inUse();
    const rows = run ? await store.recall.entries(run.id, {}, asked.actor) : [];
    await exported(asked, 'calendar.ics', rows);
    return asked.reply
      .type('text/calendar; charset=utf-8')
      .header('content-disposition', 'attachment; filename="recall.ics"')
      .send(await calendarOf(rows, deps));
  });

  const exported = ({ actor }: Asked, what: string, rows: readonly RecallRow[]) =>
    store.audit.record(actor, 'export', `recall/${what}`, { childIds: rows.map((row) => row.childId) });
}

function queryOf(form: Fields): RecallQuery {
  return {
    state: form.state === 'open' || (form.state && Object.hasOwn(stateNames, form.state)) ? form.state : '',
    action: form.action && Object.hasOwn(actionNames, form.action) ? form.action : '',
    due: ['overdue', 'never-seen', 'not-forecast', 'open'].find((d) => d === form.due) ?? '',
    text: (form.text ?? '').slice(0, 80),
    page: Math.min(10_000, Math.max(0, Math.floor(Number(form.page) || 0))),
    whole: form.whole === 'yes',
  };
}

/** Back to the same filters and the same row. Only our own query is taken from the form. */
function backTo(body: Fields, entry: string, notice: string): string {
  const query = new URLSearchParams(body?.back ?? '');
  query.set('notice', notice);
  return `/recall?${query}#e-${encodeURIComponent(entry)}`;
}

const csvRow = (row: RecallRow) => ({
  ...recallColumns(row.entry, {
    id: row.childId,
    name: row.childName,
    contact: row.contact,
    language: row.language,
  }),
  booked_for: row.appointment ?? '',
  state: row.state,
  note: row.stateNote,
});
