import type { FastifyReply, FastifyRequest } from 'fastify';
import { errorCatalogue } from '../../errors.js';
import { staff } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { problemOf, sendProblem } from '../../service/problem.js';
import { formatFor, readerLocale } from './format.js';
import { Layout } from './layout.js';
import { type PageContext, pageContext, sendPage, usePage } from './page-context.js';

/** Whether the one who asked reads pages: a browser outside the interface. Programs get problem+json. */
const readsPages = (request: FastifyRequest): boolean =>
  !/^\/api(\/|\?|$)/.test(request.url) && (request.headers.accept?.includes('text/html') ?? false);

/** Answers an error as its asker can read it: a page with a way back in a browser, else problem+json. */
export async function sendErrorPage(
  error: unknown,
  request: FastifyRequest,
  reply: FastifyReply,
  deps: ServiceDeps,
): Promise<FastifyReply> {
  if (!readsPages(request)) return sendProblem(error, request, reply);
  const problem = problemOf(error, request);
  if (problem.status >= 500) {
    const { name, code } = error as Error & { code?: string };
    request.log.error({ error: name, code }, 'page failed');
  }
  if (problem.code === 'not-signed-in' && request.method !== 'GET') return reply.redirect('/sign-in', 303);
  const details = problem.errors?.map((e) => `${e.field}: ${e.message}`).join('; ');
  const message = details ? `${problem.detail}. ${details}` : problem.detail;
  return sendPage(
    reply,
    <ErrorPage
      status={problem.status}
      code={problem.code}
      message={message}
      accepted={problem.accepted ?? ''}
      back={sameSite(request)}
    />,
    problem.status,
    await pageContext(request, reply, deps).catch(() => withoutStore(request, deps)),
  );
}

/** What a page can still say when the database does not answer: no clinic's name, no form. */
const withoutStore = (request: FastifyRequest, deps: ServiceDeps): PageContext => ({
  user: request.user ?? null,
  csrf: '',
  once: '',
  format: formatFor(readerLocale(request.headers['accept-language'], 'en')),
  today: deps.clock.today(),
  clinicName: '',
  unsigned: [],
  demo: deps.config.demo,
  path: '',
  notice: '',
});

/** The page the reader came from, if it is one of ours and not the one that failed. */
function sameSite(request: FastifyRequest): string | null {
  const { referer } = request.headers;
  if (!referer || !URL.canParse(referer)) return null;
  const url = new URL(referer);
  const path = `${url.pathname}${url.search}`;
  return url.host === request.host && path !== request.url ? path : null;
}

const titles: Readonly<Record<number, string>> = { 403: 'Not allowed', 404: 'Not found' };

/** What went wrong, what would be accepted, and the way back. Never a name. */
function ErrorPage(props: {
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
