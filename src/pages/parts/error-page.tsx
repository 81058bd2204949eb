import { errorCatalogue } from '../../errors.js';
import { staff } from '../../records/roles.js';
import { Layout } from './layout.js';
import { usePage } from './page-context.js';

const titles: Readonly<Record<number, string>> = { 403: 'Not allowed', 404: 'Not found' };

/** What went wrong, what would be accepted, and the way back. Never a name. */
export function ErrorPage(props: {
  status: number;
  code: string | null;
  message: string;
  accepted: string;
  back: string | null;
}) {
  const { status, code, message, accepted, back } = props;
  const { user } = usePage();
  const known = code && code in errorCatalogue ? errorCatalogue[code as keyof typeof errorCatalogue] : null;
  const title = known?.title ?? titles[status] ?? 'Something failed';
  return (
    <Layout title={title}>
      <section>
        <h1>{title}</h1>
        <p class="error" role="alert">
          {status >= 500 && !known
            ? 'The service could not answer. Nothing you entered before was lost; try again, and tell the administrator if it stays.'
            : sentence(message)}
        </p>
        {status === 422 && accepted && !message.includes(accepted) && <p>Accepted: {accepted}.</p>}
        {status === 404 && (
          <p>
            The address may be mistyped or old, or the record was removed. Nothing was changed.
            {user && staff.includes(user.role) && ' Look for the child by name or number instead.'}
          </p>
        )}
        {status === 403 && user && accepted && (
          <p>
            You are signed in as {user.role}. Accepted here: {accepted}. Ask someone who may do it, or the
            administrator to change your role.
          </p>
        )}
        <p class="row">
          {status === 404 && user && staff.includes(user.role) && <a href="/children">Find a child</a>}
          {back && back !== '/' && <a href={back}>Go back</a>}
          {/* A parent with an old link has no sign-in. */}
          {code !== 'link-not-valid' && <a href="/">{user ? 'Start page' : 'Sign in'}</a>}
        </p>
      </section>
    </Layout>
  );
}

const sentence = (text: string) => (/[.!?]$/.test(text) ? text : `${text}.`);
