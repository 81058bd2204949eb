import { addMonthsIso } from '../../recall/decide/calendar.js';
import type { JobRun, RunHead } from '../../store/contract.js';
import { actionNames, stateNames } from '../../words/action-names.js';
import { dateWriter } from '../../words/written-date.js';
import { Form, InputField, SelectField, Submit } from '../parts/form.js';
import { usePage } from '../parts/page-context.js';
import { Go } from '../parts/paths.js';
import { addressOf, type RecallQuery } from './recall-view.js';

/** Making the list, and taking it away: one button for the month after this one, the rest behind one more. */
export function Tools(props: { run: RunHead | null; working: boolean; query: RecallQuery }) {
  const { run, working, query } = props;
  const { format, today } = usePage();
  const make = (label: string, month: string, main: boolean) => (
    <Form action="/recall/run">
      {month && <input type="hidden" name="month" value={month} />}
      <Submit class={main ? 'main-action' : ''} disabled={working}>
        {label}
      </Submit>
    </Form>
  );
  const next = addMonthsIso(`${today.slice(0, 7)}-01`, 1);
  const filters = addressOf(query, { page: 0, whole: false });
  return (
    <div class="row tools no-print">
      {run
        ? make(
            `List to the end of ${dateWriter(format.locale, { month: 'long' })(next)}`,
            next.slice(0, 7),
            false,
          )
        : make('Make the list', '', true)}
      {run && (
        <details class="menu">
          <summary>More</summary>
          <div class="card">
            {make('Make the list again: today and five weeks', '', false)}
            <Form action="/recall/run" class="row">
              <InputField
                label="Or to the end of the month"
                name="month"
                type="month"
                required
                min={today.slice(0, 7)}
                placeholder="2027-01"
              />
              <Submit disabled={working}>Make it</Submit>
            </Form>
            <ul class="bare">
              <li>
                <a href={`/recall/letters?${filters}`}>Letters</a> to those shown who are still to be reached
              </li>
              <li>
                <a href={`/recall?${addressOf(query, { page: 0, whole: true })}`}>All on one page</a>, to
                print
              </li>
              <li>
                <a href={`/recall/list.csv?${filters}`}>CSV</a> for a spreadsheet
              </li>
              <li>
                <a href="/recall/calendar">Your calendar</a> with its days, without names
              </li>
            </ul>
          </div>
        </details>
      )}
    </div>
  );
}

/** How far a list is that is being made, or why the last could not be. */
export function JobState({ job, working }: { job: JobRun | null; working: boolean }) {
  if (!job) return null;
  if (working)
    return (
      <div class="card" role="status" data-job={job.id}>
        <label for="job">
          The list is being made: {job.done} of {job.total || '…'} children
          {job.message && `, ${job.message}`}
        </label>
        <progress id="job" max={Math.max(1, job.total)} value={job.done} />
        <p class="hint">Reload the page to see how far it is.</p>
      </div>
    );
  if (job.status === 'failed')
    return (
      <p class="error" role="alert">
        The last list could not be made: {job.message || 'no reason given'}. The list below is the one before.
      </p>
    );
  return job.message ? (
    <p class="notice" role="status">
      {job.message}.
    </p>
  ) : null;
}

const whom = [
  ['', 'everyone due'],
  ['overdue', 'late'],
  ['never-seen', 'never measured'],
  ['not-forecast', 'without a forecast'],
  ['open', 'not due, could fill a slot'],
] as const;

/** What the list can be narrowed to; it stands in the address, so that it can be kept and shared. */
export function Filters({ query }: { query: RecallQuery }) {
  const set = query.state || query.action || query.due || query.text;
  return (
    <Form
      method="get"
      action="/recall"
      aria-label="Find and filter"
      class={set ? 'row filters set' : 'row filters'}
    >
      <InputField
        label="Find: name, number, contact"
        id="filter-text"
        name="text"
        type="search"
        wide
        value={query.text}
        maxLength={80}
      />
      <SelectField
        label="State"
        name="state"
        of={[['', 'all'], ['open', 'still open'], ...Object.entries(stateNames)]}
        chosen={query.state}
      />
      <SelectField
        label="What for"
        name="action"
        of={[['', 'anything'], ...Object.entries(actionNames)]}
        chosen={query.action}
      />
      <SelectField label="Who" name="due" of={whom} chosen={query.due} />
      <p>
        <Submit>Show</Submit> {set && <Go to="/recall">Whole list</Go>}
      </p>
    </Form>
  );
}
