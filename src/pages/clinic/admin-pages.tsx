import { newPasswordLimits } from '../../records/check/check-account.js';
import { counted } from '../../records/counted.js';
import { type AuditRow, type Page, roles, type User } from '../../store/contract.js';
import {
  auditActionName,
  auditActionNames,
  auditActions,
  auditResourceName,
} from '../../words/audit-names.js';
import { Form, InputField, Options, Problem, SelectField, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { noted, Pager, Table } from '../parts/table.js';

export function UsersPage({ users, error }: { users: readonly User[]; error: string }) {
  return (
    <Layout titled title="Users">
      <Problem error={error} />
      <Table
        class="stack card"
        rows={users}
        columns={[
          ['Name', (u) => noted(u.displayName || u.name, u.name)],
          [
            'Role, sign-in',
            (u) => (
              <Form action={`/users/${encodeURIComponent(u.id)}`} class="row" hidden={{ version: u.version }}>
                <select name="role" aria-label={`Role of ${u.name}`}>
                  <Options of={roles} chosen={u.role} />
                </select>
                <label>
                  <input type="checkbox" name="disabled" value="yes" checked={u.disabled} /> may not sign in
                </label>
                <Submit>Save</Submit>
              </Form>
            ),
          ],
          [
            'New password',
            (u) => (
              <Form action={`/users/${encodeURIComponent(u.id)}/password`} class="row">
                <input
                  type="password"
                  name="password"
                  {...newPasswordLimits}
                  required
                  autocomplete="new-password"
                  aria-label={`New password of ${u.name}`}
                  size={14}
                />
                <Submit>Set</Submit>
              </Form>
            ),
          ],
        ]}
      />
      <section>
        <h2>New user</h2>
        <Form action="/users" class="row" send="Add user" main>
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
        </Form>
      </section>
    </Layout>
  );
}

const shown = (children: number): string => counted(children, 'child', 'children');

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
    <Layout titled title="Access log">
      <Form method="get" action="/access-log" class="row card" aria-label="Find and filter" send="Show">
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
      </Form>
      <Table
        class="stack card"
        empty="Nothing fits."
        caption="Newest first, times in UTC. Rows cannot be changed or removed. A child's number finds the lists and files that showed it, too."
        rows={page.items}
        columns={[
          ['When', (row) => time.format(new Date(row.at))],
          ['Who', (row) => noted(row.userName, row.role)],
          ['Did', (row) => auditActionName(row.action)],
          [
            'What',
            ({ resource, detail: { nameTried } }) =>
              noted(auditResourceName(resource), typeof nameTried === 'string' && `as ${nameTried}`),
          ],
          ['Child', (row) => row.childId ?? (row.childrenShown > 0 ? shown(row.childrenShown) : '–')],
        ]}
      />
      {page.nextCursor && (
        <Pager>
          <a rel="next" href={`/access-log?${new URLSearchParams({ ...filter, cursor: page.nextCursor })}`}>
            Next page
          </a>
        </Pager>
      )}
    </Layout>
  );
}
