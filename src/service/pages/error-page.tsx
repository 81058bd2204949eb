import { errorCatalogue } from '../../errors.js';
import { Layout } from './layout.js';
import type { PageContext } from './page-context.js';

/** What went wrong, what would be accepted, and the way back. Never a name. */
export function ErrorPage(props: {
  context: PageContext;
  status: number;
  code: string | null;
  message: string;
  back: string;
}) {
  const { context, status, code, message, back } = props;
  const known = code && code in errorCatalogue ? errorCatalogue[code as keyof typeof errorCatalogue] : null;
  const title =
    known?.title ?? (status === 404 ? 'Not found' : status === 403 ? 'Not allowed' : 'Something failed');
  return (
    <Layout title={title} context={context}>
      <section>
        <h1>{title}</h1>
        <p class="error" role="alert">
          {status >= 500 && !known
            ? 'The service could not answer. Nothing you entered before was lost; try again, and tell the administrator if it stays.'
            : message}
        </p>
        <p>
          <a href={back}>Go back</a> · <a href="/">Start page</a>
        </p>
      </section>
    </Layout>
  );
}
