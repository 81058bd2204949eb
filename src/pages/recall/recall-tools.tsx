import type { JobRun, RunHead } from '../../store/contract.js';
import { InputField } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { usePage } from '../parts/page-context.js';
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
  const next = monthAfter(today);
  const filters = addressOf(query, { page: 0, whole: false });
  return (
    <div class="row tools no-print">
      {run
        ? make(`List to the end of ${monthName(next, format.locale)}`, next, false)
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

const monthAfter = (today: string): string => {
  const [year, month] = today.split('-').map(Number);
  return month === 12 ? `${year + 1}-01` : `${year}-${String(month + 1).padStart(2, '0')}`;
};

const monthName = (month: string, locale: string): string =>
  new Intl.DateTimeFormat(locale === 'en' ? 'en-GB' : locale, { month: 'long', timeZone: 'UTC' }).format(
    new Date(`${month}-01T00:00:00Z`),
  );

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
