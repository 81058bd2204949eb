import { counted } from '../../records/counted.js';
import type { ImportPlan } from '../../service/import-plan.js';
import type { StoredImport } from '../../store/contract.js';
import { Form, Problem, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { Table } from '../parts/table.js';
import { OtherQuestions, SheetColumns } from './import-questions.js';

const NAMES: Readonly<Record<string, string>> = {
  children: 'Children',
  measurements: 'Measurements',
  markers: 'Maturity markers',
  devices: 'Devices',
  events: 'Device events',
  jobs: 'Workshop jobs',
  skinChecks: 'Skin checks',
};
const TITLES: Readonly<Record<StoredImport['status'], readonly [title: string, says: string]>> = {
  checked: ['Dry run', 'Nothing has been written. This is what the import would do:'],
  queued: ['Import', 'This import is being taken in:'],
  committed: ['Import', 'This import was taken in:'],
  refused: ['Import', 'This import was refused:'],
  'taken-back': ['Import', 'This import was taken back. It had done:'],
};

export function ImportPlanPage(props: {
  id: string;
  status: StoredImport['status'];
  plan: ImportPlan;
  error?: string;
}) {
  const { id, status, plan, error } = props;
  const work = plan.tables.reduce((n, t) => n + t.added + t.changed, 0);
  const base = `/import/${encodeURIComponent(id)}`;
  const [title, says] = TITLES[status];
  const open = plan.questions?.length ?? 0;
  return (
    <Layout title={title}>
      <h1>{title}</h1>
      <Problem error={error} />
      <p>{says}</p>
      <Counts plan={plan} />
      {status === 'checked' && (
        <Form action={`${base}/commit`} class="row">
          <Submit main disabled={work === 0}>
            Write {counted(work, 'row')}
          </Submit>
          <a href="/import">Leave it</a>
          {open > 0 && (
            <p>
              {counted(open, 'question is', 'questions are')} open below; what waits for an answer stays out.
            </p>
          )}
        </Form>
      )}
      {status === 'committed' && (
        <Form action={`${base}/take-back`} class="row">
          <Submit>Take this import back</Submit>
          <p>
            Takes out what it added. Children with records or work added since stay, and what it changed stays
            changed; the next page says how many.
          </p>
        </Form>
      )}
      {status === 'checked' && (plan.columns.length > 0 || open > 0) && (
        <Form action={`${base}/answers`}>
          <OtherQuestions plan={plan} />
          {[...new Set(plan.columns.map((c) => c.file))].map((file) => (
            <SheetColumns key={file} plan={plan} file={file} />
          ))}
          <p>
            The answers are kept for this clinic's next sheets with the same headings and can be{' '}
            <a href="/import/readings">seen and changed</a>.
          </p>
          <Submit main>Keep these answers and read again</Submit>
        </Form>
      )}
      <Remarks
        title={counted(plan.refusedCount, 'entry refused', 'entries refused')}
        says="Good rows are not lost with bad ones: these entries stay out, everything else can be written."
        lines={plan.refused}
        count={plan.refusedCount}
      />
      <Remarks
        title={
          plan.doubtfulCount === 1
            ? '1 reading written with a doubt'
            : `${plan.doubtfulCount ?? 0} readings written with a doubt`
        }
        says="They are taken and count for less."
        lines={plan.doubtful ?? []}
        count={plan.doubtfulCount ?? 0}
      />
      <Remarks title="Good to know" says="" lines={plan.notices} count={plan.notices.length} />
    </Layout>
  );
}

function Counts({ plan }: { plan: ImportPlan }) {
  return (
    <section>
      <Table
        rows={plan.tables.filter((t) => t.added + t.changed + t.unchanged > 0)}
        columns={[
          ['Table', (t) => NAMES[t.table] ?? t.table],
          ['New', (t) => t.added, 'number'],
          ['Changed', (t) => t.changed, 'number'],
          ['The same', (t) => t.unchanged, 'number'],
        ]}
      />
    </section>
  );
}

function Remarks(props: { title: string; says: string; lines: readonly string[]; count: number }) {
  const { title, says, lines, count } = props;
  if (count === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      {says && <p>{says}</p>}
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
        {count > lines.length && <li>and {count - lines.length} more</li>}
      </ul>
    </section>
  );
}
