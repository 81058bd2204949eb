import { createHash, timingSafeEqual } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import { DoorpostError } from '../errors.js';
import type { ServiceDeps } from './dependencies.js';
import { isFromThisMachine } from './from-this-machine.js';

/** In the same time whatever is wrong. */
const sameSecret = (given: string, secret: string): boolean =>
  timingSafeEqual(digestOf(given), digestOf(secret));
const digestOf = (text: string) => createHash('sha256').update(text).digest();

/** /health: the process lives. /ready: it can serve (the database answers and is migrated). /metrics: Prometheus. */
export async function registerMetrics(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  const register = new Registry();
  collectDefaultMetrics({ register });
  const seconds = new Histogram({
    name: 'doorpost_http_request_seconds',
    help: 'Time to answer, by route pattern',
    labelNames: ['method', 'route', 'status'],
    buckets: [0.005, 0.02, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10],
    registers: [register],
  });
  new Gauge({
    name: 'doorpost_children_assessed',
    help: 'Active children with an assessment',
    registers: [register],
    // Not a number while the database does not answer; the other figures are wanted most of all then.
    async collect() {
      this.set(
        await deps.store.forecasts.coverage().then(
          ({ done }) => done,
          () => Number.NaN,
        ),
      );
    },
  });
  new Gauge({
    name: 'doorpost_jobs_waiting',
    help: 'Jobs in the queue not yet taken up, by kind',
    labelNames: ['job'],
    registers: [register],
    async collect() {
      this.reset();
      for (const { name, jobs } of await deps.store.queue.waiting().catch(() => []))
        this.set({ job: name }, jobs);
    },
  });
  new Gauge({
    name: 'doorpost_database_answers',
    help: '1 while the database answers and is migrated, else 0',
    registers: [register],
    async collect() {
      this.set(
        await deps.store.ready().then(
          () => 1,
          () => 0,
        ),
      );
    },
  });
  app.addHook('onResponse', async (request, reply) => {
    seconds.observe(
      {
        method: request.method,
        route: request.routeOptions.url ?? 'none',
        status: reply.statusCode,
      },
      reply.elapsedTime / 1000,
    );
  });

  const open = { access: 'public' as const, rateLimit: false as const };
  app.get('/health', { config: open }, async () => ({ status: 'alive' }));
  app.get('/ready', { config: open }, async () => {
    await deps.store.ready();
    return { status: 'ready' };
  });
  app.get('/metrics', { config: open }, async (request, reply) => {
    const { metricsToken } = deps.config;
    // Behind a proxy everybody may look like this machine.
    const local = deps.config.trustedProxies.length === 0 && isFromThisMachine(request);
    if (metricsToken ? !sameSecret(request.headers.authorization ?? '', `Bearer ${metricsToken}`) : !local)
      throw new DoorpostError('not-signed-in', 'Metrics need METRICS_TOKEN as bearer token');
    return reply.type(register.contentType).send(await register.metrics());
  });
}
