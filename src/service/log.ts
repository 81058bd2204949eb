import type { FastifyInstance, FastifyServerOptions } from 'fastify';

/** What a log says of an error: its message may carry values of a record, in its stack too; name, code and frames do not. */
export function loggedError({ name, code, stack }: Error & { code?: unknown }) {
  const frames = stack?.split('\n').filter((line) => line.trimStart().startsWith('at ')) ?? [];
  return { error: name, code, frames: frames.slice(0, 8) };
}

/** Structured logs that name no child: route patterns instead of addresses, no bodies, no queries, no headers. */
export const logSettings = (level: string): FastifyServerOptions['logger'] => ({
  level,
  serializers: { err: (error) => ({ type: error.name, message: '', stack: '', ...loggedError(error) }) },
  redact: {
    paths: ['req', 'res', 'headers', '*.headers', 'password', '*.password', 'token', '*.token'],
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
