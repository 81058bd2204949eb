import { type ImportRun, isUnderWay, type JobRun } from '../../store/contract.js';
import { Form, InputField, Problem, SelectField, Submit } from '../parts/form.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

const STATES: Readonly<Record<ImportRun['status'], string>> = {
  checked: 'tried, not taken in',
  queued: 'being taken in',
  committed: 'taken in',
  refused: 'refused',
  'taken-back': 'taken back',
};

export function ImportPage(props: { imports: readonly ImportRun[]; runs: readonly JobRun[]; error: string }) {
  const { format } = usePage();
  const { imports, runs, error } = props;
  const running = runs.find(isUnderWay);
  return (
    <Layout title="Import">
      <h1>Import</h1>
      <Problem error={error} />
      <section>
        <p>
          Choose the list the clinic keeps, in any shape: CSV, an XLSX workbook, or FHIR R4 files. First comes
          a dry run: it says what each column was taken for, what would be new or changed and what is refused,
          and writes nothing. What only the clinic can say is asked once and remembered:{' '}
          <a href="/import/readings">how this clinic's sheets are read</a>.
        </p>
        <Form action="/import" encType="multipart/form-data">
          <div class="row">
            <InputField
              label="Files"
              name="files"
              type="file"
              multiple
              required
              accept=".csv,.tsv,.txt,.xlsx,.json,.ndjson"
            />
            <SelectField
              label="Dates such as 03/04/2025"
              name="dateOrder"
              of={[
                ['refuse', 'as the column says, else ask'],
                ['dmy', 'day first'],
                ['mdy', 'month first'],
              ]}
            />
            <SelectField
              label="Lengths without a unit"
              name="lengthUnit"
              of={[['', 'as the values say, else ask'], 'mm', 'cm', 'inch']}
            />
          </div>
          <Submit main>Try it: dry run</Submit>
        </Form>
      </section>
      <section>
        <h2>Imports so far</h2>
        {running && (
          <p>
            Being taken in: {running.done} of {running.total} rows.
          </p>
        )}
        {imports.length === 0 ? (
          <Empty>None yet.</Empty>
        ) : (
          <ul>
            {imports.map((r) => (
              <li key={r.id}>
                <a href={`/import/${encodeURIComponent(r.id)}`}>
                  {format.day(r.createdAt)}, {format.time(r.createdAt)}
                </a>
                : {STATES[r.status]}, by {r.createdBy}
              </li>
            ))}
          </ul>
        )}
        {runs.some((r) => r.message) && (
          <details>
            <summary>What each run wrote</summary>
            <ul>
              {runs.map((r) => (
                <li key={r.id}>
                  {format.day(r.startedAt)}: {r.status}
                  {r.message && ` (${r.message})`}
                </li>
              ))}
            </ul>
          </details>
        )}
      </section>
    </Layout>
  );
}
