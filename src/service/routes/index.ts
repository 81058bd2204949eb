import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { ServiceDeps } from '../dependencies.js';
import { childrenRoutes } from './children-routes.js';
import { devicesRoutes } from './devices-routes.js';
import { readingsRoutes } from './readings-routes.js';
import { sessionRoutes } from './session-routes.js';

/** Everything under /api; each file one kind of thing. */
export async function registerApi(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  const api = app.withTypeProvider<ZodTypeProvider>();
  for (const routes of [sessionRoutes, childrenRoutes, readingsRoutes, devicesRoutes]) routes(api, deps);
}
