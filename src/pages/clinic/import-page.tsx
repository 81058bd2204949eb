import type { ImportRun, JobRun } from '../../store/contract.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

const STATES: Readonly<Record<ImportRun['status'], string>> = {
  checked: 'tried, not taken in',
  queued: 'being taken in',
  committed: 'taken in',
  refused: 'refused',
  'taken-back': 'taken back',
};

export function ImportPage(props: {
  context: PageContext;
  imports: readonly ImportRun[];
  runs: readonly JobRun[];
  error: string;
}) {
  const { context, imports, runs, error } = props;
  const running = runs.find((r) => r.status === 'queued' || r.status === 'running');
  return (
    <Layout title="Import" context={context}>
      <h1>Import</h1>
      {error && (
        <p class="error" role="alert">
          {error}
        </p>
      )}
      <section>
        <p>
          Choose the list the clinic keeps, in any shape: CSV, an XLSX workbook, or FHIR R4 files. First comes
          a dry run: it says what each column was taken for, what would be new or changed and what is refused,
          and writes nothing. What only the clinic can say is asked once and remembered:{' '}
          <a href="/import/readings">how this clinic's sheets are read</a>.
        </p>
        <form method="post" action="/import" encType="multipart/form-data">
          <Csrf context={context} />
          <div class="row">
            <p class="field">
              <label for="files">Files</label>
              <input
                id="files"
                name="files"
                type="file"
                multiple
                required
                accept=".csv,.tsv,.txt,.xlsx,.json,.ndjson"
              />
            </p>
            <p class="field">
              <label for="dateOrder">Dates such as 03/04/2025</label>
              <select id="dateOrder" name="dateOrder">
                <option value="refuse">as the column says, else ask</option>
                <option value="dmy">day first</option>
                <option value="mdy">month first</option>
              </select>
            </p>
            <p class="field">
              <label for="lengthUnit">Lengths without a unit</label>
              <select id="lengthUnit" name="lengthUnit">
                <option value="">as the values say, else ask</option>
                <option>mm</option>
                <option>cm</option>
                <option>inch</option>
              </select>
            </p>
          </div>
          <button type="submit" class="main-action">
            Try it: dry run
          </button>
        </form>
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
                  {context.format.date(r.createdAt.slice(0, 10))}, {r.createdAt.slice(11, 16)}
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
                  {context.format.date(r.startedAt.slice(0, 10))}: {r.status}
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
