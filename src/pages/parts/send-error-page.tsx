import type { FastifyReply, FastifyRequest } from 'fastify';
import type { ServiceDeps } from '../../service/dependencies.js';
import { problemOf, sendProblem } from '../../service/problem.js';
import { ErrorPage } from './error-page.js';
import { formatFor, readerLocale } from './format.js';
import { type PageContext, pageContext, sendPage } from './page-context.js';

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
