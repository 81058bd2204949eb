import { z } from 'zod';
import { newPassword, typedPassword } from '../../records/check/check-account.js';
import { roles } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import { signOutSession, signedIn as whoOf } from '../session.js';
import { changeOwnPassword } from '../sign-in/change-own-password.js';
import { passwordSignIn } from '../sign-in/password-sign-in.js';
import { type Api, routesOf, signedIn } from './api.js';
import { nothing } from './schemas/common.js';

const user = z.object({ id: z.string(), name: z.string(), displayName: z.string(), role: z.enum(roles) });

export function sessionRoutes(api: Api, deps: ServiceDeps): void {
  const { store, clock, config } = deps;
  const { act, get } = routesOf(api, deps, ['Session']);
  /** Whoever guesses a password is slowed down. */
  const rateLimit = { max: config.signInRateLimit, timeWindow: '1 minute' };

  act(
    'POST /session',
    { access: 'public', rateLimit },
    'Sign in with a local account; gives a bearer token',
    {
      body: z.object({ name: z.string().min(1).max(80), password: typedPassword }),
      201: z.object({ token: z.string(), expiresAt: z.string(), user }),
    },
    async ({ request, body }) => {
      const found = await passwordSignIn(request, deps, body, 'token');
      const expiresAt = new Date(clock.now().getTime() + config.sessionHours * 3_600_000);
      const token = await store.accessTokens.create(found.id, expiresAt);
      return { token, expiresAt: expiresAt.toISOString(), user: whoOf(found) };
    },
  );
  get(
    '/session',
    signedIn,
    'Who is signed in; by cookie also the CSRF token for writes',
    { 200: z.object({ user, csrfToken: z.string().nullable() }) },
    async ({ request, reply }) => ({
      user: request.user!,
      csrfToken: request.signedInBy === 'cookie' ? reply.csrfToken() : null,
    }),
  );
  act(
    'PUT /session/password',
    { ...signedIn, rateLimit },
    'Change your own password; ends every session and token of yours, this one too',
    { body: z.object({ present: typedPassword, next: newPassword }), 204: nothing },
    async ({ request, body }) => {
      await changeOwnPassword(request, deps, body);
    },
  );
  act('DELETE /session', signedIn, 'Sign out', { 204: nothing }, async ({ request, actor }) => {
    const bearer = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
    await store.audit.record(actor, 'sign-out', 'session');
    if (bearer) await store.accessTokens.revoke(bearer);
    else await signOutSession(request);
  });
}
