import { type AuditRow, type Page, roles, type User } from '../../store/contract.js';
import {
  auditActionName,
  auditActionNames,
  auditActions,
  auditResourceName,
} from '../../words/audit-names.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

export const Problem = ({ error }: { error: string }) =>
  error ? (
    <p class="error" role="alert">
      {error}
    </p>
  ) : null;

export function UsersPage(props: { context: PageContext; users: readonly User[]; error: string }) {
  const { context, users, error } = props;
  return (
    <Layout title="Users" context={context}>
      <h1>Users</h1>
      <Problem error={error} />
      <table class="stack card">
        <thead>
          <tr>
            <th scope="col">Name</th>
            <th scope="col">Role, sign-in</th>
            <th scope="col">New password</th>
          </tr>
        </thead>
        <tbody>
          {users.map((u) => (
            <tr key={u.id}>
              <th scope="row">
                {u.displayName || u.name} <small>{u.name}</small>
              </th>
              <td>
                <form method="post" action={`/users/${encodeURIComponent(u.id)}`} class="row">
                  <Csrf context={context} />
                  <input type="hidden" name="version" value={u.version} />
                  <select name="role" aria-label={`Role of ${u.name}`}>
                    {roles.map((r) => (
                      <option key={r} selected={r === u.role}>
                        {r}
                      </option>
                    ))}
                  </select>
                  <label>
                    <input type="checkbox" name="disabled" value="yes" checked={u.disabled} /> may not sign in
                  </label>
                  <button type="submit">Save</button>
                </form>
              </td>
              <td>
                <form method="post" action={`/users/${encodeURIComponent(u.id)}/password`} class="row">
                  <Csrf context={context} />
                  <input
                    type="password"
                    name="password"
                    minLength={10}
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
          <Csrf context={context} />
          <p class="field">
            <label for="user-name">Sign-in name</label>
            <input id="user-name" name="name" required autocomplete="off" autocapitalize="none" />
          </p>
          <p class="field">
            <label for="display-name">Shown as</label>
            <input id="display-name" name="displayName" autocomplete="off" />
          </p>
          <p class="field">
            <label for="role">Role</label>
            <select id="role" name="role">
              {roles.map((r) => (
                <option key={r}>{r}</option>
              ))}
            </select>
          </p>
          <p class="field">
            <label for="password">First password</label>
            <input
              id="password"
              name="password"
              type="password"
              minLength={10}
              required
              autocomplete="new-password"
            />
          </p>
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
  context: PageContext;
  page: Page<AuditRow>;
  filter: { readonly childId: string; readonly action: string; readonly from: string; readonly to: string };
}) {
  const { context, page, filter } = props;
  const time = new Intl.DateTimeFormat(context.format.locale === 'en' ? 'en-GB' : context.format.locale, {
    dateStyle: 'medium',
    timeStyle: 'medium',
    timeZone: 'UTC',
  });
  return (
    <Layout title="Access log" context={context}>
      <h1>Access log</h1>
      <form method="get" action="/access-log" class="row card" aria-label="Find and filter">
        <p class="field">
          <label for="childId">Child's number</label>
          <input id="childId" name="childId" value={filter.childId} />
        </p>
        <p class="field">
          <label for="action">Did</label>
          <select id="action" name="action">
            <option value="">anything</option>
            {auditActions.map((action) => (
              <option key={action} value={action} selected={action === filter.action}>
                {auditActionNames[action]}
              </option>
            ))}
          </select>
        </p>
        <p class="field">
          <label for="from">From</label>
          <input id="from" name="from" type="date" value={filter.from} />
        </p>
        <p class="field">
          <label for="to">To</label>
          <input id="to" name="to" type="date" value={filter.to} />
        </p>
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
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">Who</th>
              <th scope="col">Did</th>
              <th scope="col">What</th>
              <th scope="col">Child</th>
            </tr>
          </thead>
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
