import { newPasswordLimits } from '../../records/check/check-account.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { Form, InputField, Problem, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Go } from '../parts/paths.js';
import { Table } from '../parts/table.js';

export function SignInPage(props: {
  then: string;
  /** 'yes' where name or password was wrong, 'wait' after too many tries. */
  failed: '' | 'yes' | 'wait';
  /** As it was typed, so that only the password is typed again. */
  name: string;
  oidc: boolean;
  demoSignIns: ServiceDeps['demoSignIns'];
  /** Only where the page is read on the machine that serves it. */
  showPasswords: boolean;
}) {
  const { then, failed, name, oidc, demoSignIns, showPasswords } = props;
  return (
    <Layout title="Sign in">
      <div class="cards">
        <section>
          <h1>Sign in</h1>
          {failed === 'yes' && (
            <p class="error" role="alert">
              Name and password do not fit together. Check both; after several attempts there is a short wait.
            </p>
          )}
          {failed === 'wait' && (
            <p class="error" role="alert">
              There were too many attempts with this name. Wait some minutes, up to a quarter of an hour, then
              try again.
            </p>
          )}
          <Form action="/sign-in" hidden={{ then }}>
            <InputField
              label="Name"
              name="name"
              autocomplete="username"
              required
              autofocus={name === ''}
              autocapitalize="none"
              maxLength={80}
              value={name}
            />
            <InputField
              label="Password"
              name="password"
              type="password"
              autocomplete="current-password"
              autofocus={name !== ''}
              required
            />
            <Submit main>Sign in</Submit>
          </Form>
          {oidc && (
            <p>
              <Go to={`/oidc/start?then=${encodeURIComponent(then)}`}>Sign in with the hospital's account</Go>
            </p>
          )}
        </section>
        {demoSignIns.length > 0 && (
          <section>
            <h2>Demo clinic</h2>
            <p>Every child in it is invented. Sign in as one of these:</p>
            <Table
              rows={demoSignIns}
              columns={[
                ['Role', (s) => s.role],
                ['Name', (s) => s.name],
                [
                  'Password',
                  (s) => (showPasswords ? <code>{s.password}</code> : 'on the console of the service'),
                ],
              ]}
            />
          </section>
        )}
      </div>
    </Layout>
  );
}

export function PasswordPage({ hasPassword, error }: { hasPassword: boolean; error: string }) {
  const { user } = usePage();
  return (
    <Layout titled title="Your password">
      {user?.passwordByOther && (
        <p class="notice">
          <strong>This password was given to you.</strong> Choose one that only you know; then everything else
          opens.
        </p>
      )}
      <Problem error={error} />
      {hasPassword ? (
        <Form action="/password">
          <input type="text" name="username" value={user?.name} autocomplete="username" hidden />
          <Field name="present" label="Present password" complete="current-password" />
          <Field name="next" label="New password, at least 12 characters" complete="new-password" />
          <Field name="again" label="New password again" complete="new-password" />
          <Submit main>Change password</Submit>
          <p>You stay signed in here; everywhere else you have to sign in again.</p>
        </Form>
      ) : (
        <p>You sign in with the hospital's account: change the password there.</p>
      )}
      <h2>Signed in elsewhere</h2>
      <Form action="/password/elsewhere">
        <p>
          Left a computer without signing out, or lost a telephone? This ends all but this one, and the
          address of your calendar.
        </p>
        <Submit>Sign out everywhere else</Submit>
      </Form>
    </Layout>
  );
}

const Field = ({ name, label, complete }: { name: string; label: string; complete: string }) => (
  <InputField
    label={label}
    name={name}
    type="password"
    autocomplete={complete}
    required
    {...newPasswordLimits}
    {...(name === 'present' ? { minLength: undefined } : {})}
  />
);
