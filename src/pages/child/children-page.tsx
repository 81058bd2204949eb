import { deviceLabel, familyLabel } from '../../charts/device-label.js';
import type { IsoDate } from '../../records/dates.js';
import { familyIds } from '../../records/device.js';
import { recordKeepers } from '../../records/roles.js';
import type { ChildSearch, ChildSummary, Page } from '../../store/contract.js';
import { AlertTags } from '../parts/alert-tags.js';
import { Form, InputField, SelectField, Submit } from '../parts/form.js';
import { ageText, type Format } from '../parts/format.js';
import { Empty, Layout, NoChildYet } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildLink, Go } from '../parts/paths.js';
import { type Column, Pager, Table } from '../parts/table.js';
import { outgrownText, urgency } from './outgrown-text.js';

const NONE_FITS = 'No child fits this search. Check the spelling, or take a filter away.';

export function ChildrenPage(props: {
  query: ChildSearch;
  page: Page<ChildSummary>;
  total: number;
  firstPage: boolean;
  /** Nothing fits as typed; these differ by one slip. */
  nearest: boolean;
}) {
  const { query, page, total, firstPage, nearest } = props;
  const { format, today } = usePage();
  const { text = '', status = 'active', sort = 'soonest', family = '' } = query;
  const to = (cursor: { cursor?: string }) =>
    `/children?${new URLSearchParams({ text, status, sort, family, ...cursor })}`;
  const counted = total === 1 ? '1 child' : `${format.number(total)} children`;
  const asked = query.text ? ` for “${query.text}”` : '';
  return (
    <Layout titled title="Children">
      <Search {...query} />
      {page.items.length === 0 && !query.text && !query.family && <NoChildYet />}
      {page.items.length === 0 && (query.text || query.family) && <Empty>{NONE_FITS}</Empty>}
      {page.items.length > 0 && (
        <Table
          class="stack card"
          caption={`${counted}${nearest ? `: nobody is written “${query.text}”; the nearest` : asked}`}
          rows={page.items}
          columns={columns(format, today)}
        />
      )}
      <Pager>
        {!firstPage && <a href={to({})}>First page</a>}
        {page.nextCursor && (
          <a href={to({ cursor: page.nextCursor })} rel="next">
            Next page
          </a>
        )}
      </Pager>
    </Layout>
  );
}

function Search(of: ChildSearch) {
  const { user } = usePage();
  return (
    <Form method="get" action="/children" aria-label="Find and filter" class="row card">
      <InputField
        label="Name, number or birth date"
        name="text"
        type="search"
        value={of.text}
        autofocus
        size={24}
      />
      <SelectField
        label="Wears"
        name="family"
        of={[['', 'any device'], ...familyIds.map((f) => [f, familyLabel(f)] as const)]}
        chosen={of.family}
      />
      <SelectField
        label="Order"
        name="sort"
        of={[
          ['soonest', 'outgrown first'],
          ['name', 'by name'],
        ]}
        chosen={of.sort ?? 'soonest'}
      />
      <SelectField
        label="Status"
        name="status"
        of={(['active', 'moved-away', 'discharged', 'died', 'any'] as const).map(
          (s) => [s, s.replace('-', ' ')] as const,
        )}
        chosen={of.status ?? 'active'}
      />
      <p>
        <Submit main>Find</Submit>
      </p>
      {user && recordKeepers.includes(user.role) && (
        <p>
          <Go to="/children/new">New child</Go>
        </p>
      )}
    </Form>
  );
}

const columns = (format: Format, today: IsoDate): Column<ChildSummary>[] => [
  [
    'Child',
    (c) => (
      <>
        <ChildLink {...c} /> <small>{c.id}</small>{' '}
        <AlertTags
          alerts={[
            ...(c.insensateSkin ? (['skin-cannot-warn'] as const) : []),
            ...(c.latexAlert ? (['latex'] as const) : []),
          ]}
        />
      </>
    ),
  ],
  ['Age', (c) => <span class="day">{ageText(c.birthDate, today)}</span>],
  [
    'Outgrown first',
    (c) => (c.soonest ? deviceLabel(c.soonest) : `no ${c.devicesInUse > 0 ? 'forecast yet' : 'device'}`),
  ],
  [
    'When',
    (c) =>
      c.soonest && (
        <span class={`tag ${urgency(c.soonest, today)}`}>{outgrownText(c.soonest, today, format)}</span>
      ),
  ],
  [
    'Last visit',
    (c) =>
      c.lastVisit ? (
        <span class="day">{format.date(c.lastVisit)}</span>
      ) : (
        <span class="tag due">never measured</span>
      ),
  ],
];
