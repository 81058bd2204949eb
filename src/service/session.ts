import cookie from '@fastify/cookie';
import csrf from '@fastify/csrf-protection';
import session, { type FastifySessionOptions } from '@fastify/session';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DoorpostError } from '../errors.js';
import type { Store, User } from '../store/contract.js';
import type { ServiceDeps, SignedInUser } from './dependencies.js';
import type {} from './fastify-types.js';
import type { OidcClient } from './oidc/oidc-client.js';
import { roleRecheck } from './oidc/recheck-role.js';

const HOUR_MS = 3_600_000;

/** That a session is in use is written so often, or ten times in its idle life where that is short: not at every request. */
const USE_WRITTEN_MS = 60_000;
const UNSAFE = new Set(['POST', 'PUT', 'PATCH', 'DELETE']);

export const signedIn = (user: User): SignedInUser => ({
  id: user.id,
  name: user.name,
  displayName: user.displayName,
  role: user.role,
  passwordByOther: user.passwordByOther,
});

/** A user that was removed is nobody; a database that is away is not. */
const noSuchUser = (error: unknown): null => {
  if (error instanceof DoorpostError && error.code === 'not-found') return null;
  throw error;
};

/** Starts a fresh cookie session for this user (a session id known before sign-in is worth nothing after it). */
export async function signInSession(request: FastifyRequest, user: User, now: Date): Promise<void> {
  await request.session.regenerate();
  request.session.userId = user.id;
  request.session.startedAt = now.getTime();
  request.session.userVersion = user.version;
  request.user = signedIn(user);
  request.signedInBy = 'cookie';
}

export async function signOutSession(request: FastifyRequest): Promise<void> {
  await request.session.destroy();
  request.user = null;
}

/** Sessions in the store, bearer tokens, and CSRF protection of writes made by cookie. */
export async function registerSession(
  app: FastifyInstance,
  deps: ServiceDeps,
  oidc: OidcClient | null,
): Promise<void> {
  const { store, config, clock } = deps;
  const recheck = oidc === null ? null : roleRecheck(oidc, deps);
  const idleMs = config.sessionIdleMinutes * 60_000;
  const secure = config.publicUrl?.startsWith('https:') ?? false;
  await app.register(cookie);
  await app.register(session, {
    secret: await store.secret('session-cookie'),
    cookieName: secure ? '__Host-doorpost' : 'doorpost',
    cookie: { secure, httpOnly: true, sameSite: 'lax', path: '/', maxAge: idleMs },
    saveUninitialized: false,
    // Saved when something in it has changed; `usedIn` changes now and then, and the idle life begins anew with it.
    rolling: false,
    store: sessionStore(store, idleMs),
  });
  await app.register(csrf, {
    sessionPlugin: '@fastify/session',
    getToken: (request) => {
      const field = (request.body as { _csrf?: unknown } | null | undefined)?._csrf;
      const header = request.headers['x-csrf-token'];
      return typeof field === 'string' ? field : String(header ?? '');
    },
  });
  app.decorateRequest('user', null);
  app.decorateRequest('signedInBy', null);
  app.decorateReply('csrfToken', function () {
    // Who came by a bearer token needs none, and would leave a session behind with every page.
    return this.request.signedInBy === 'cookie' ? this.generateCsrf() : '';
  });

  app.addHook('onRequest', async (request) => {
    const bearer = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
    if (bearer !== undefined)
      return signInByToken(request, await store.accessTokens.userOf(bearer, clock.now()));
    const { userId, userVersion, startedAt = 0 } = request.session;
    if (!userId) return;
    const over = clock.now().getTime() - startedAt > config.sessionHours * HOUR_MS;
    const current = over ? null : await stillAUser(store, userId, userVersion);
    const user = current && recheck ? await recheck(request, current) : current;
    if (user === null) return request.session.destroy();
    request.session.usedIn = Math.floor(clock.now().getTime() / Math.min(USE_WRITTEN_MS, idleMs / 10));
    request.user = signedIn(user);
    request.signedInBy = 'cookie';
  });

  app.addHook('preValidation', async (request, reply) => {
    if (!UNSAFE.has(request.method) || request.signedInBy === 'bearer') return;
    if (request.headers['sec-fetch-site'] === 'cross-site')
      throw new DoorpostError('not-allowed', 'This write came from another web site');
    if (request.signedInBy === 'cookie')
      await new Promise<void>((resolve, reject) => {
        // The plugin answers a bad token itself through reply.send; asked for the error instead.
        const asked = Object.create(reply, { send: { value: (error: Error) => reject(error) } });
        app.csrfProtection(request, asked, () => resolve());
      });
  });
}

/** A token that is not valid any more opens only what is open to all. */
function signInByToken(request: FastifyRequest, user: User | null): void {
  if (user) Object.assign(request, { user: signedIn(user), signedInBy: 'bearer' });
  else if (request.routeOptions.config.access !== 'public')
    throw new DoorpostError('not-signed-in', 'This bearer token is not valid any more');
}

/** The account of a session, unless it was closed or changed since. */
async function stillAUser(store: Store, userId: string, version: number | undefined): Promise<User | null> {
  const user = await store.users.get(userId).catch(noSuchUser);
  return user && !user.disabled && user.version === version ? user : null;
}

/** express-session style store with callbacks, on our sessions table. */
function sessionStore(store: Store, lifeMs: number): FastifySessionOptions['store'] {
  const done = (work: Promise<unknown>, callback: (error?: unknown) => void) =>
    work.then(
      () => callback(),
      (error) => callback(error),
    );
  return {
    get: (id, callback) =>
      void store.sessions.get(id).then(
        (data) => callback(null, data as never),
        (error) => callback(error),
      ),
    set: (id, data, callback) =>
      void done(
        store.sessions.set(
          id,
          JSON.parse(JSON.stringify(data)),
          data.cookie.expires ? new Date(data.cookie.expires) : new Date(Date.now() + lifeMs),
        ),
        callback,
      ),
    destroy: (id, callback) => void done(store.sessions.remove(id), callback),
  };
}
