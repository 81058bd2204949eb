import type { DataSuggestion } from '../../forecast/contract.js';
import { Form, Submit } from '../parts/form.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';

export interface ChildSlips {
  readonly childId: string;
  readonly name: string;
  readonly slips: readonly DataSuggestion[];
}

/** Likely slips in the history an import brought, one click each; a clinician decides. */
export function ImportSlipsPage(props: {
  id: string;
  found: readonly ChildSlips[];
  looked: number;
  of: number;
}) {
  const { id, found, looked, of } = props;
  const clinical = usePage().user?.role === 'clinician';
  return (
    <Layout title="Slips in an import">
      <h1>Likely slips in what was taken in</h1>
      <p>
        Swapped sides, another unit or a digit too many, measured in shoes: nothing is changed until a
        clinician accepts it, and the original is always kept. Looked at {looked} of {of} children of this
        import.
      </p>
      {found.length === 0 && <Empty>None found.</Empty>}
      {found.map(({ childId, name, slips }) => (
        <section key={childId}>
          <h2>{clinical ? <a href={childPath(childId)}>{name || childId}</a> : name || childId}</h2>
          {slips.map((s) => (
            <Form
              action={childPath(childId, '/suggestions')}
              class="flag check"
              key={s.id}
              hidden={{ suggestion: s.id, import: id }}
            >
              {' '}
              <p>{s.seen}</p>
              <p class="row">
                {clinical && s.corrections.length > 0 ? (
                  <Submit>{s.action}</Submit>
                ) : (
                  <strong>{s.action}</strong>
                )}
              </p>
            </Form>
          ))}
        </section>
      ))}
      <p>
        <a href={`/import/${encodeURIComponent(id)}`}>Back to the import</a>
      </p>
    </Layout>
  );
}
