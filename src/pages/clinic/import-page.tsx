import type { ImportPlan } from '../../service/plan-import.js';
import type { JobRun } from '../../store/contract.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

export function ImportPage(props: { context: PageContext; runs: readonly JobRun[]; error: string }) {
  const { context, runs, error } = props;
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
          Choose children.csv, measurements.csv and devices.csv (also events, markers and jobs), an XLSX
          workbook, or FHIR R4 files. First comes a dry run: it says what would be added, changed and refused,
          and writes nothing.
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
                <option value="refuse">refuse: cannot be told</option>
                <option value="dmy">day first</option>
                <option value="mdy">month first</option>
              </select>
            </p>
            <p class="field">
              <label for="lengthUnit">Lengths without a unit</label>
              <select id="lengthUnit" name="lengthUnit">
                <option value="">refuse</option>
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
        {runs.length === 0 ? (
          <Empty>None yet.</Empty>
        ) : (
          <ul>
            {runs.map((r) => (
              <li key={r.id}>
                {context.format.date(r.startedAt.slice(0, 10))}: {r.status}
                {r.status === 'running' && `, ${r.done} of ${r.total}`}
                {r.message && ` (${r.message})`}
              </li>
            ))}
          </ul>
        )}
      </section>
    </Layout>
  );
}

export function ImportPlanPage(props: { context: PageContext; id: string; plan: ImportPlan }) {
  const { context, id, plan } = props;
  const work = plan.tables.reduce((n, t) => n + t.added + t.changed, 0);
  return (
    <Layout title="Dry run" context={context}>
      <h1>Dry run</h1>
      <p>Nothing has been written. This is what the import would do:</p>
      <section>
        <table>
          <thead>
            <tr>
              <th scope="col">Table</th>
              <th scope="col" class="number">
                Added
              </th>
              <th scope="col" class="number">
                Changed
              </th>
              <th scope="col" class="number">
                As it is
              </th>
            </tr>
          </thead>
          <tbody>
            {plan.tables.map((t) => (
              <tr key={t.table}>
                <th scope="row">{t.table}</th>
                <td class="number">{t.added}</td>
                <td class="number">{t.changed}</td>
                <td class="number">{t.unchanged}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {plan.refusedCount > 0 && (
        <section>
          <h2>{plan.refusedCount} entries refused</h2>
          <p>Good rows are not lost with bad ones: these entries stay out, everything else can be written.</p>
          <ul>
            {plan.refused.map((r) => (
              <li key={r}>{r}</li>
            ))}
            {plan.refusedCount > plan.refused.length && (
              <li>and {plan.refusedCount - plan.refused.length} more</li>
            )}
          </ul>
        </section>
      )}
      {plan.notices.length > 0 && (
        <section>
          <h2>Good to know</h2>
          <ul>
            {plan.notices.map((n) => (
              <li key={n}>{n}</li>
            ))}
          </ul>
        </section>
      )}
      <form method="post" action={`/import/${encodeURIComponent(id)}/commit`} class="row">
        <Csrf context={context} />
        <button type="submit" class="main-action" disabled={work === 0}>
          Write {work} rows
        </button>
        <a href="/import">Leave it</a>
      </form>
    </Layout>
  );
}
