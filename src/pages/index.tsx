import type { FastifyInstance } from 'fastify';
import type { ServiceDeps } from '../service/dependencies.js';
import { sentBefore } from '../service/write.js';
import { registerChildForms } from './child/child-form-routes.js';
import { registerChildPages } from './child/child-routes.js';
import { registerDeviceForms } from './child/device-form-routes.js';
import { registerDevicePages } from './child/device-routes.js';
import { registerRecordPages } from './child/record-routes.js';
import { registerVisitPages } from './child/visit-routes.js';
import { registerWhatIfPage } from './child/what-if-routes.js';
import { registerAdminPages } from './clinic/admin-routes.js';
import { registerCapacityPages } from './clinic/capacity-routes.js';
import { registerFitRulesPages } from './clinic/fit-rules-routes.js';
import { registerHelpPages } from './clinic/help-page.js';
import { registerImportPages } from './clinic/import-routes.js';
import { registerOverviewPages } from './clinic/overview-routes.js';
import { registerSignOffPages } from './clinic/sign-offs-routes.js';
import { registerTodayPage } from './clinic/today-routes.js';
import { registerFamilyPages } from './family/family-routes.js';
import { registerPageReply } from './parts/page-context.js';
import { registerAssets } from './parts/register-assets.js';
import { registerRecallPages } from './recall/recall-routes.js';
import { registerSignInPages } from './sign-in/sign-in-routes.js';

/** Everything people see in a browser. Reading works without script; an error is a page with a way back. */
export async function registerPages(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  await registerAssets(app);
  registerPageReply(app, deps);
  takeOnce(app, deps);
  registerSignInPages(app, deps);
  registerTodayPage(app, deps);
  registerChildPages(app, deps);
  registerChildForms(app, deps);
  registerRecordPages(app, deps);
  registerVisitPages(app, deps);
  registerDeviceForms(app, deps);
  registerDevicePages(app, deps);
  registerWhatIfPage(app, deps);
  registerRecallPages(app, deps);
  registerFamilyPages(app, deps);
  registerOverviewPages(app, deps);
  registerFitRulesPages(app, deps);
  registerSignOffPages(app, deps);
  registerHelpPages(app, deps);
  registerImportPages(app, deps);
  registerAdminPages(app, deps);
  registerCapacityPages(app, deps);
}

/** Takes the token off every form before its fields are read, and sends on what was sent before. */
function takeOnce(app: FastifyInstance, { store }: ServiceDeps): void {
  app.decorateRequest('once', null);
  app.addHook('preHandler', async (request, reply) => {
    const body = request.body as Record<string, unknown> | null | undefined;
    if (request.method !== 'POST' || typeof body?.once !== 'string') return;
    const { once } = body;
    delete body.once;
    if (!/^[0-9a-f-]{36}$/.test(once)) return;
    request.once = once;
    const location = await sentBefore(store, request);
    if (location !== null) return reply.redirect(location, 303);
  });
}
