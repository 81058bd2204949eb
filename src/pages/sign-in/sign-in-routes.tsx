import type { FastifyInstance } from 'fastify';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { ownPath } from '../../service/oidc.js';
import { signInSession, signOutSession } from '../../service/session.js';
import { homeOf } from '../parts/layout.js';
import { pageContext, sendPage } from '../parts/page-context.js';
import { everyone, type Form } from '../parts/route-types.js';
import { SignInPage } from './sign-in-page.js';

export function registerSignInPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, config } = deps;

  app.get('/', { config: { access: everyone } }, async (request, reply) =>
    reply.redirect(request.user ? homeOf[request.user.role] : '/sign-in', 303),
  );

  app.get<{ Querystring: Form }>('/sign-in', { config: { access: 'public' } }, async (request, reply) => {
    if (request.user) return reply.redirect(homeOf[request.user.role], 303);
    return sendPage(
      reply,
      <SignInPage
        context={await pageContext(request, reply, deps)}
        then={ownPath(request.query.then)}
        failed={request.query.failed === 'yes'}
        oidc={config.oidc !== null}
        demoSignIns={deps.demoSignIns}
      />,
    );
  });

  app.post<{ Body: Form }>(
    '/sign-in',
    {
      config: { access: 'public', rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' } },
    },
    async (request, reply) => {
      const { name = '', password = '', then } = request.body ?? {};
      const user = await store.users.signIn(String(name).slice(0, 80), String(password).slice(0, 200));
      const target = ownPath(then);
      if (!user) {
        await store.audit.record({
          actor: { userId: 'unknown', name: 'unknown', role: 'system', requestId: request.id },
          action: 'sign-in-failed',
          resource: 'session',
        });
        return reply.redirect(`/sign-in?failed=yes&then=${encodeURIComponent(target)}`, 303);
      }
      await signInSession(request, user);
      await store.audit.record({
        actor: { userId: user.id, name: user.name, role: user.role, requestId: request.id },
        action: 'sign-in',
        resource: 'session',
        detail: { by: 'password' },
      });
      return reply.redirect(target === '/' ? homeOf[user.role] : target, 303);
    },
  );

  app.post('/sign-out', { config: { access: everyone } }, async (request, reply) => {
    await store.audit.record({ actor: actorOf(request), action: 'sign-out', resource: 'session' });
    await signOutSession(request);
    return reply.redirect('/sign-in?notice=signed-out', 303);
  });
}
