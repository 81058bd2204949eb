import type { FastifyError, FastifyInstance } from 'fastify';
import type { ServiceDeps } from '../dependencies.js';
import { registerAdminPages } from './admin-routes.js';
import { registerCapacityPages } from './capacity-routes.js';
import { registerChildPages } from './child-routes.js';
import { registerEditChildPages } from './edit-child-routes.js';
import { registerFamilyPages } from './family-routes.js';
import { registerFitRulesPages } from './fit-rules-routes.js';
import { registerImportPages } from './import-routes.js';
import { registerOverviewPages } from './overview-routes.js';
import { registerRecallPages } from './recall-routes.js';
import { registerAssets } from './register-assets.js';
import { sendErrorPage } from './send-error-page.js';
import { registerSignInPages } from './sign-in-routes.js';
import { registerVisitPages } from './visit-routes.js';
import { registerWhatIfPages } from './what-if-routes.js';

/** Everything people see in a browser. Reading works without script; an error is a page with a way back. */
export async function registerPages(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  app.setErrorHandler<FastifyError>((error, request, reply) => sendErrorPage(error, request, reply, deps));
  await registerAssets(app);
  registerSignInPages(app, deps);
  registerChildPages(app, deps);
  registerEditChildPages(app, deps);
  registerVisitPages(app, deps);
  registerWhatIfPages(app, deps);
  registerRecallPages(app, deps);
  registerFamilyPages(app, deps);
  registerOverviewPages(app, deps);
  registerFitRulesPages(app, deps);
  registerImportPages(app, deps);
  registerAdminPages(app, deps);
  registerCapacityPages(app, deps);
}
