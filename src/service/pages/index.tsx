import type { FastifyError, FastifyInstance } from 'fastify';
import type { ServiceDeps } from '../dependencies.js';
import { problemOf, sendProblem } from '../problem.js';
import { registerAdminPages } from './admin-routes.js';
import { registerCapacityPages } from './capacity-routes.js';
import { registerChildPages } from './child-routes.js';
import { ErrorPage } from './error-page.js';
import { registerFamilyPages } from './family-routes.js';
import { registerFitRulesPages } from './fit-rules-routes.js';
import { registerImportPages } from './import-routes.js';
import { registerOverviewPages } from './overview-routes.js';
import { pageContext, sendPage } from './page-context.js';
import { registerRecallPages } from './recall-routes.js';
import { registerAssets } from './register-assets.js';
import { registerSignInPages } from './sign-in-routes.js';
import { registerVisitPages } from './visit-routes.js';

/** Everything people see in a browser. Reading works without script; an error is a page with a way back. */
export async function registerPages(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  app.setErrorHandler<FastifyError>(async (error, request, reply) => {
    if (!request.headers.accept?.includes('text/html')) return sendProblem(error, request, reply);
    const problem = problemOf(error, request);
    if (problem.status >= 500) request.log.error({ error: error.name, code: error.code }, 'page failed');
    if (problem.code === 'not-signed-in' && request.method !== 'GET') return reply.redirect('/sign-in', 303);
    const context = await pageContext(request, reply, deps);
    const details = problem.errors?.map((e) => `${e.field}: ${e.message}`).join('; ');
    return sendPage(
      reply,
      <ErrorPage
        context={context}
        status={problem.status}
        code={problem.code}
        message={details ? `${problem.detail}. ${details}` : problem.detail}
        back={sameSite(request.headers.referer, request.host) ?? '/'}
      />,
      problem.status,
    );
  });
  await registerAssets(app);
  registerSignInPages(app, deps);
  registerChildPages(app, deps);
  registerVisitPages(app, deps);
  registerRecallPages(app, deps);
  registerFamilyPages(app, deps);
  registerOverviewPages(app, deps);
  registerFitRulesPages(app, deps);
  registerImportPages(app, deps);
  registerAdminPages(app, deps);
  registerCapacityPages(app, deps);
}

/** The page the reader came from, if it is one of ours. */
function sameSite(referer: string | undefined, host: string): string | null {
  if (!referer || !URL.canParse(referer)) return null;
  const url = new URL(referer);
  return url.host === host ? `${url.pathname}${url.search}` : null;
}
