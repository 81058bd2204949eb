import { z } from 'zod';
import { newPassword, typedPassword } from '../../records/check/check-account.js';
import { roles } from '../../store/contract.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { signOutSession, signedIn as whoOf } from '../session.js';
import { changeOwnPassword } from '../sign-in/change-own-password.js';
import { passwordSignIn } from '../sign-in/password-sign-in.js';
import { type Api, route, signedIn } from './api.js';
import { nothing } from './schemas/common.js';

const tags = ['Session'];
const user = z.object({ id: z.string(), name: z.string(), displayName: z.string(), role: z.enum(roles) });

export function sessionRoutes(api: Api, deps: ServiceDeps): void {
  const { store, clock, config } = deps;

  api.post(
    '/session',
    route(
      { access: 'public', rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' } },
      tags,
      'Sign in with a local account; gives a bearer token',
      { 201: z.object({ token: z.string(), expiresAt: z.string(), user }) },
      { body: z.object({ name: z.string().min(1).max(80), password: typedPassword }) },
    ),
    async (request, reply) => {
      const found = await passwordSignIn(request, deps, request.body, 'token');
      const expiresAt = new Date(clock.now().getTime() + config.sessionHours * 3_600_000);
      const token = await store.accessTokens.create(found.id, expiresAt);
      return reply.code(201).send({ token, expiresAt: expiresAt.toISOString(), user: whoOf(found) });
    },
  );

  api.get(
    '/session',
    route(signedIn, tags, 'Who is signed in; by cookie also the CSRF token for writes', {
      200: z.object({ user, csrfToken: z.string().nullable() }),
    }),
    async (request, reply) => ({
      user: request.user!,
      csrfToken: request.signedInBy === 'cookie' ? reply.csrfToken() : null,
    }),
  );

  api.put(
    '/session/password',
    route(
      { ...signedIn, rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' } },
      tags,
      'Change your own password; ends every session and token of yours, this one too',
      { 204: nothing },
      { body: z.object({ present: typedPassword, next: newPassword }) },
    ),
    async (request, reply) => {
      await changeOwnPassword(request, deps, request.body);
      return reply.code(204).send(null);
    },
  );

  api.delete('/session', route(signedIn, tags, 'Sign out', { 204: nothing }), async (request, reply) => {
    const bearer = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
    await store.audit.record(actorOf(request), 'sign-out', 'session');
    if (bearer) await store.accessTokens.revoke(bearer);
    else await signOutSession(request);
    return reply.code(204).send(null);
  });
}
