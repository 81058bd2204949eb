import type { DataSuggestion } from '../../forecast/contract.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

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
          <h2>
            {clinical ? (
              <a href={`/children/${encodeURIComponent(childId)}`}>{name || childId}</a>
            ) : (
              name || childId
            )}
          </h2>
          {slips.map((s) => (
            <form
              method="post"
              action={`/children/${encodeURIComponent(childId)}/suggestions`}
              class="flag check"
              key={s.id}
            >
              <Csrf />
              <input type="hidden" name="suggestion" value={s.id} />
              <input type="hidden" name="import" value={id} />
              <p>{s.seen}</p>
              <p class="row">
                {clinical && s.corrections.length > 0 ? (
                  <button type="submit">{s.action}</button>
                ) : (
                  <strong>{s.action}</strong>
                )}
              </p>
            </form>
          ))}
        </section>
      ))}
      <p>
        <a href={`/import/${encodeURIComponent(id)}`}>Back to the import</a>
      </p>
    </Layout>
  );
}
