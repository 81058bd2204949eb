import { randomUUID } from 'node:crypto';
import compress from '@fastify/compress';
import formbody from '@fastify/formbody';
import helmet from '@fastify/helmet';
import multipart from '@fastify/multipart';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyInstance, LogController } from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { hearChartWarnings } from './charts/render-chart.js';
import { DoorpostError } from './errors.js';
import { registerPages } from './pages/index.js';
import { sendErrorPage } from './pages/parts/send-error-page.js';
import { checkAccess } from './service/access.js';
import { registerApi } from './service/api/index.js';
import type { ServiceDeps } from './service/dependencies.js';
import { logRequests, logSettings } from './service/log.js';
import { registerMetrics } from './service/metrics.js';
import { oidcClient } from './service/oidc/oidc-client.js';
import { registerOidc } from './service/oidc/register-oidc.js';
import { registerOpenapi } from './service/openapi.js';
import { refuseWhileStopping } from './service/refuse-while-stopping.js';
import { registerSession } from './service/session.js';
import { bodyLimits, refuseBodies } from './service/uploads/body-rules.js';
import { readUploads } from './service/uploads/read-multipart.js';
import { uploadReader } from './service/uploads/upload-reader.js';

/** The built-in database is back after a second or two. */
const RETRY_SECONDS = 5;

/** A request, body and all, is here after so long, or its connection is cut. */
const REQUEST_WITHIN_MS = 300_000;

/** The whole service on its dependencies; listens nowhere yet. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: what the service is put together of, in the order in which it must be
export async function buildService(deps: ServiceDeps): Promise<FastifyInstance> {
  const { config, store } = deps;
  const app = Fastify({
    logger: logSettings(config.logLevel),
    logController: new LogController({ disableRequestLogging: true }),
    genReqId: () => randomUUID(),
    trustProxy: config.trustedProxies.length > 0 ? config.trustedProxies : false,
    bodyLimit: bodyLimits.signedIn,
    routerOptions: { maxParamLength: 400 },
    forceCloseConnections: 'idle',
    return503OnClosing: false,
    requestTimeout: REQUEST_WITHIN_MS,
    // Addresses the router itself cannot read.
    frameworkErrors: (error, request, reply) => void sendErrorPage(error, request, reply, deps),
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler((error, request, reply) => sendErrorPage(error, request, reply, deps));
  refuseWhileStopping(app);
  logRequests(app);
  hearChartWarnings((words) => app.log.warn({ warning: words.slice(0, 200) }, 'a chart raised a warning'));

  const https = config.publicUrl?.startsWith('https:') ?? false;
  await app.register(helmet, {
    contentSecurityPolicy: {
      directives: {
        defaultSrc: ["'self'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'", "'unsafe-inline'"],
        imgSrc: ["'self'", 'data:'],
        fontSrc: ["'self'", 'data:'],
        objectSrc: ["'none'"],
        frameAncestors: ["'none'"],
        formAction: ["'self'"],
        upgradeInsecureRequests: https ? [] : null,
      },
    },
    strictTransportSecurity: https,
    referrerPolicy: { policy: 'same-origin' },
  });
  app.addHook('onSend', async (request, reply) => {
    // What a child's record says must not lie in a shared cache; assets say otherwise themselves.
    if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
    reply.header('x-request-id', request.id);
    if (reply.statusCode === 503 && !reply.hasHeader('retry-after'))
      reply.header('retry-after', RETRY_SECONDS);
  });
  // Pages, JSON, CSV, fonts; PNG and gzip are small already. Each form's token is masked anew, so its length tells nothing.
  // What comes in compressed stays refused: a small body that unpacks without end.
  await app.register(compress, {
    customTypes: /^text\/|json|javascript|svg|font\/ttf/,
    globalDecompression: false,
    // A twentieth more bytes for half the time.
    zlibOptions: { level: 3 },
  });
  await app.register(formbody);
  await app.register(multipart);
  readUploads(app);
  const uploads = uploadReader();
  app.decorate('uploads', uploads);
  app.addHook('onClose', async () => uploads.stop());
  await app.register(rateLimit, {
    max: config.rateLimit,
    timeWindow: '1 minute',
    errorResponseBuilder: (_request, context) =>
      new DoorpostError('too-many-requests', `Too many requests: wait ${context.after}`),
  });
  const oidc = config.oidc === null ? null : oidcClient(config.oidc);
  await registerSession(app, deps, oidc);
  checkAccess(app, store);
  refuseBodies(app);
  await registerOpenapi(app);
  await registerMetrics(app, deps);
  if (oidc !== null) registerOidc(app, deps, oidc);
  await app.register((api) => registerApi(api, deps), { prefix: '/api' });
  await app.register((pages) => registerPages(pages, deps));
  return app;
}
