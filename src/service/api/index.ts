import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { ServiceDeps } from '../dependencies.js';
import { chartsRoutes } from './charts-routes.js';
import { childrenRoutes } from './children-routes.js';
import { clinicRoutes } from './clinic-routes.js';
import { correctionsRoutes } from './corrections-routes.js';
import { derivedRoutes } from './derived-routes.js';
import { devicesRoutes } from './devices-routes.js';
import { exportsRoutes } from './exports-routes.js';
import { fitRulesRoutes } from './fit-rules-routes.js';
import { importsRoutes } from './imports-routes.js';
import { readingsRoutes } from './readings-routes.js';
import { recallRoutes } from './recall-routes.js';
import { sessionRoutes } from './session-routes.js';
import { signOffsRoutes } from './sign-offs-routes.js';

const all = [
  sessionRoutes,
  childrenRoutes,
  readingsRoutes,
  correctionsRoutes,
  devicesRoutes,
  derivedRoutes,
  chartsRoutes,
  recallRoutes,
  importsRoutes,
  exportsRoutes,
  clinicRoutes,
  fitRulesRoutes,
  signOffsRoutes,
];

/** Everything under /api; each file one kind of thing. */
export async function registerApi(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  const api = app.withTypeProvider<ZodTypeProvider>();
  for (const routes of all) routes(api, deps);
}
