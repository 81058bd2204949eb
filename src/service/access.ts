import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../errors.js';
import type { Actor, Store } from '../store/contract.js';
import type { Access } from './dependencies.js';
import type {} from './fastify-types.js';

/** The signed-in user as the store wants to know who acts. Only in routes that are not public. */
export function actorOf(request: FastifyRequest): Actor {
  if (!request.user) throw new DoorpostError('not-signed-in', 'Sign in to do this');
  const { id, name, role } = request.user;
  return { userId: id, name, role, requestId: request.id };
}

/** What is open to a person whose password somebody else has set. */
const OPEN_WITH_FIRST_PASSWORD = new Set(['/password', '/sign-out', '/api/session/password', '/api/session']);

const isPage = ({ method, url, headers }: FastifyRequest): boolean =>
  method === 'GET' && !url.startsWith('/api/') && (headers.accept?.includes('text/html') ?? false);

/**
 * Every route says who may use it, and is refused at start when it does not. The check runs before the body is read.
 * A page asked for without sign-in leads to the sign-in page; an API call is answered 401.
 */
export function checkAccess(app: FastifyInstance, store: Store): void {
  const table = new Map<string, Access>();
  app.decorate('accessTable', table);
  app.addHook('onRoute', (route) => {
    const { access } = route.config ?? {};
    if (access === undefined)
      throw new Error(`${String(route.method)} ${route.url} does not say who may use it (config.access)`);
    for (const method of [route.method].flat()) table.set(`${method} ${route.url}`, access);
  });
  app.addHook('onRequest', async (request, reply) => {
    const access: Access | undefined = request.routeOptions.config.access;
    if (access === undefined || access === 'public') return;
    if (!request.user)
      return insteadOf(
        request,
        reply,
        `/sign-in?then=${encodeURIComponent(request.url)}`,
        new DoorpostError('not-signed-in', 'Sign in first: POST /api/session gives a bearer token'),
      );
    if (request.user.passwordByOther && !OPEN_WITH_FIRST_PASSWORD.has(request.routeOptions.url ?? ''))
      return insteadOf(
        request,
        reply,
        '/password',
        new DoorpostError('not-allowed', 'Change the password that you were given first', {
          accepted: 'the page /password, or POST /api/session/password',
        }),
      );
    if (access.includes(request.user.role)) return;
    await store.audit.record(actorOf(request), 'refused', `${request.method} ${request.routeOptions.url}`);
    throw new DoorpostError('not-allowed', `This is not for the role ${request.user.role}`, {
      accepted: access.join(', '),
    });
  });
}

/** Who asked for a page is sent to another; who asked the interface is told why not. */
function insteadOf(request: FastifyRequest, reply: FastifyReply, page: string, error: DoorpostError) {
  if (isPage(request)) return reply.redirect(page, 303);
  throw error;
}
