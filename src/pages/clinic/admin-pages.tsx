import { newPasswordLimits } from '../../records/check/check-account.js';
import { type AuditRow, type Page, roles, type User } from '../../store/contract.js';
import {
  auditActionName,
  auditActionNames,
  auditActions,
  auditResourceName,
} from '../../words/audit-names.js';
import { Columns, InputField, Options, Problem, SelectField } from '../parts/fields.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

export function UsersPage(props: { users: readonly User[]; error: string }) {
  const { users, error } = props;
  return (
    <Layout title="Users">
      <h1>Users</h1>
      <Problem error={error} />
      <table class="stack card">
        <Columns of={['Name', 'Role, sign-in', 'New password']} />
        <tbody>
          {users.map((u) => (
            <tr key={u.id}>
              <th scope="row">
                {u.displayName || u.name} <small>{u.name}</small>
              </th>
              <td>
                <form method="post" action={`/users/${encodeURIComponent(u.id)}`} class="row">
                  <Csrf />
                  <input type="hidden" name="version" value={u.version} />
                  <select name="role" aria-label={`Role of ${u.name}`}>
                    <Options of={roles} chosen={u.role} />
                  </select>
                  <label>
                    <input type="checkbox" name="disabled" value="yes" checked={u.disabled} /> may not sign in
                  </label>
                  <button type="submit">Save</button>
                </form>
              </td>
              <td>
                <form method="post" action={`/users/${encodeURIComponent(u.id)}/password`} class="row">
                  <Csrf />
                  <input
                    type="password"
                    name="password"
                    {...newPasswordLimits}
                    required
                    autocomplete="new-password"
                    aria-label={`New password of ${u.name}`}
                    size={14}
                  />
                  <button type="submit">Set</button>
                </form>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <section>
        <h2>New user</h2>
        <form method="post" action="/users" class="row">
          <Csrf />
          <InputField
            label="Sign-in name"
            id="user-name"
            name="name"
            required
            autocomplete="off"
            autocapitalize="none"
          />
          <InputField label="Shown as" id="display-name" name="displayName" autocomplete="off" />
          <SelectField label="Role" name="role" of={roles} />
          <InputField
            label="First password"
            name="password"
            type="password"
            {...newPasswordLimits}
            required
            autocomplete="new-password"
          />
          <p>
            <button type="submit" class="main-action">
              Add user
            </button>
          </p>
        </form>
      </section>
    </Layout>
  );
}

const shown = (children: number): string => (children === 1 ? '1 child' : `${children} children`);

export function AccessLogPage(props: {
  page: Page<AuditRow>;
  filter: { readonly childId: string; readonly action: string; readonly from: string; readonly to: string };
}) {
  const { page, filter } = props;
  const { format } = usePage();
  const time = new Intl.DateTimeFormat(format.locale === 'en' ? 'en-GB' : format.locale, {
    dateStyle: 'medium',
    timeStyle: 'medium',
    timeZone: 'UTC',
  });
  return (
    <Layout title="Access log">
      <h1>Access log</h1>
      <form method="get" action="/access-log" class="row card" aria-label="Find and filter">
        <InputField label="Child's number" name="childId" value={filter.childId} />
        <SelectField
          label="Did"
          name="action"
          of={[
            ['', 'anything'],
            ...auditActions.map((action) => [action, auditActionNames[action]] as const),
          ]}
          chosen={filter.action}
        />
        <InputField label="From" name="from" type="date" value={filter.from} />
        <InputField label="To" name="to" type="date" value={filter.to} />
        <p>
          <button type="submit">Show</button>
        </p>
      </form>
      {page.items.length === 0 ? (
        <Empty>Nothing fits.</Empty>
      ) : (
        <table class="stack card">
          <caption>
            Newest first, times in UTC. Rows cannot be changed or removed. A child's number finds the lists
            and files that showed it, too.
          </caption>
          <Columns of={['When', 'Who', 'Did', 'What', 'Child']} />
          <tbody>
            {page.items.map((row) => (
              <tr key={row.id}>
                <td data-label="When">{time.format(new Date(row.at))}</td>
                <td data-label="Who">
                  {row.userName} <small>{row.role}</small>
                </td>
                <td data-label="Did">{auditActionName(row.action)}</td>
                <td data-label="What">
                  {auditResourceName(row.resource)}
                  {typeof row.detail.nameTried === 'string' && <small> as {row.detail.nameTried}</small>}
                </td>
                <td data-label="Child">
                  {row.childId ?? (row.childrenShown > 0 ? shown(row.childrenShown) : '–')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {page.nextCursor && (
        <nav class="pager" aria-label="Pages">
          <a rel="next" href={`/access-log?${new URLSearchParams({ ...filter, cursor: page.nextCursor })}`}>
            Next page
          </a>
        </nav>
      )}
    </Layout>
  );
}
