import { newPasswordLimits } from '../../records/check/check-account.js';
import { Form, InputField, Problem, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

export function PasswordPage(props: { hasPassword: boolean; error: string }) {
  const { user } = usePage();
  const { hasPassword, error } = props;
  return (
    <Layout title="Your password">
      <h1>Your password</h1>
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
