import { deviceLabel, familyLabel } from '../../charts/device-label.js';
import { familyIds } from '../../records/device.js';
import type { ChildSearch, ChildSummary, Page } from '../../store/contract.js';
import { alertNames } from '../../words/action-names.js';
import { Columns, InputField, SelectField } from '../parts/fields.js';
import { ageText } from '../parts/format.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { outgrownText, urgency } from './outgrown-text.js';

export function ChildrenPage(props: {
  query: ChildSearch;
  page: Page<ChildSummary>;
  total: number;
  firstPage: boolean;
  /** Nothing fits as typed; these differ by one slip. */
  nearest: boolean;
}) {
  const { query, page, total, firstPage, nearest } = props;
  const { format, today, user } = usePage();
  const next = new URLSearchParams({
    text: query.text ?? '',
    status: query.status ?? 'active',
    sort: query.sort ?? 'soonest',
    family: query.family ?? '',
    cursor: page.nextCursor ?? '',
  });
  return (
    <Layout title="Children">
      <h1>Children</h1>
      <form method="get" action="/children" aria-label="Find and filter" class="row card">
        <InputField
          label="Name, number or birth date"
          name="text"
          type="search"
          value={query.text}
          autofocus
          size={24}
        />
        <SelectField
          label="Wears"
          name="family"
          of={[['', 'any device'], ...familyIds.map((f) => [f, familyLabel(f)] as const)]}
          chosen={query.family}
        />
        <p class="field">
          <label for="sort">Order</label>
          <select id="sort" name="sort">
            <option value="soonest" selected={query.sort !== 'name'}>
              outgrown first
            </option>
            <option value="name" selected={query.sort === 'name'}>
              by name
            </option>
          </select>
        </p>
        <SelectField
          label="Status"
          name="status"
          of={(['active', 'moved-away', 'discharged', 'died', 'any'] as const).map(
            (s) => [s, s.replace('-', ' ')] as const,
          )}
          chosen={query.status ?? 'active'}
        />
        <p>
          <button type="submit" class="main-action">
            Find
          </button>
        </p>
        {user?.role !== 'scheduler' && (
          <p>
            <a class="button" href="/children/new">
              New child
            </a>
          </p>
        )}
      </form>
      {page.items.length === 0 ? (
        <Empty>
          {query.text || query.family
            ? 'No child fits this search. Check the spelling, or take a filter away.'
            : 'No children yet. An administrator can import the clinic’s spreadsheets under Import.'}
        </Empty>
      ) : (
        <table class="stack card">
          <caption>
            {total === 1 ? '1 child' : `${format.number(total)} children`}
            {query.text && !nearest ? ` for “${query.text}”` : ''}
            {nearest ? `: nobody is written “${query.text}”; the nearest` : ''}
          </caption>
          <Columns of={['Child', 'Age', 'Outgrown first', 'When', 'Last visit']} />
          <tbody>
            {page.items.map((c) => (
              <tr key={c.id}>
                <th scope="row">
                  <a href={`/children/${encodeURIComponent(c.id)}`}>{c.name || c.id}</a> <small>{c.id}</small>
                  {c.insensateSkin && (
                    <>
                      {' '}
                      <span class="tag skin-cannot-warn">{alertNames['skin-cannot-warn']}</span>
                    </>
                  )}
                  {c.latexAlert && (
                    <>
                      {' '}
                      <span class="tag latex">{alertNames.latex}</span>
                    </>
                  )}
                </th>
                <td data-label="Age">{ageText(c.birthDate, today)}</td>
                <td data-label="Outgrown first">
                  {c.soonest ? deviceLabel(c.soonest) : c.devicesInUse > 0 ? 'no forecast yet' : 'no device'}
                </td>
                <td data-label="When">
                  {c.soonest && (
                    <span class={`tag ${urgency(c.soonest, today)}`}>
                      {outgrownText(c.soonest, today, format)}
                    </span>
                  )}
                </td>
                <td data-label="Last visit">
                  {c.lastVisit ? format.date(c.lastVisit) : <span class="tag due">never measured</span>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <nav class="pager" aria-label="Pages">
        {!firstPage && <a href={`/children?${withoutCursor(next)}`}>First page</a>}
        {page.nextCursor && (
          <a href={`/children?${next}`} rel="next">
            Next page
          </a>
        )}
      </nav>
    </Layout>
  );
}

function withoutCursor(query: URLSearchParams): string {
  const copy = new URLSearchParams(query);
  copy.delete('cursor');
  return copy.toString();
}
