import type { FastifyInstance, FastifyServerOptions } from 'fastify';

/** Structured logs that name no child: route patterns instead of addresses, no bodies, no queries, no headers. */
export const logSettings = (level: string): FastifyServerOptions['logger'] => ({
  level,
  redact: {
    paths: [
      'req',
      'res',
      'headers',
      '*.headers',
      'password',
      '*.password',
      'token',
      '*.token',
      'err.message',
    ],
    remove: true,
  },
});

export function logRequests(app: FastifyInstance): void {
  app.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url ?? 'no such route';
    const line = {
      method: request.method,
      route,
      status: reply.statusCode,
      ms: Math.round(reply.elapsedTime),
      role: request.user?.role,
      requestId: request.id,
    };
    if (route === '/health' || route === '/ready' || route === '/metrics') request.log.debug(line, 'request');
    else request.log.info(line, 'request');
  });
}
