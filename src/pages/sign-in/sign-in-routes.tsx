import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { everyone } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { isFromThisMachine } from '../../service/from-this-machine.js';
import { signInSession, signOutSession } from '../../service/session.js';
import { changeOwnPassword } from '../../service/sign-in/change-own-password.js';
import { ownPath } from '../../service/sign-in/own-path.js';
import { passwordSignIn } from '../../service/sign-in/password-sign-in.js';
import { homeOf } from '../parts/layout.js';
import type { Fields } from '../parts/route-types.js';
import { PasswordPage } from './password-page.js';
import { SignInPage } from './sign-in-page.js';

export function registerSignInPages(app: FastifyInstance, deps: ServiceDeps): void {
  signInPages(app, deps);
  passwordPages(app, deps);
}

function signInPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, config } = deps;
  app.get('/', { config: { access: everyone } }, async (request, reply) =>
    reply.redirect(request.user ? homeOf[request.user.role] : '/sign-in', 303),
  );

  /** `name` is given back in the page alone: typed into the wrong field it may be a password, and addresses are kept. */
  const show = async (
    request: FastifyRequest,
    reply: FastifyReply,
    tried: { target: string; failed: '' | 'yes' | 'wait'; name: string },
  ) =>
    reply.page(
      <SignInPage
        then={tried.target}
        failed={tried.failed}
        name={tried.name}
        oidc={config.oidc !== null}
        demoSignIns={deps.demoSignIns}
        showPasswords={config.trustedProxies.length === 0 && isFromThisMachine(request)}
      />,
      { '': 200, yes: 401, wait: 429 }[tried.failed],
    );

  app.get<{ Querystring: Fields }>('/sign-in', { config: { access: 'public' } }, async (request, reply) => {
    if (request.user) return reply.redirect(homeOf[request.user.role], 303);
    return show(request, reply, { target: ownPath(request.query.then), failed: '', name: '' });
  });

  app.post<{ Body: Fields }>(
    '/sign-in',
    {
      config: { access: 'public', rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' } },
    },
    async (request, reply) => {
      const { name = '', password = '', then } = request.body ?? {};
      const target = ownPath(then);
      const back = (failed: 'yes' | 'wait') =>
        show(request, reply, { target, failed, name: String(name).slice(0, 80) });
      try {
        const user = await passwordSignIn(
          request,
          deps,
          { name: String(name), password: String(password) },
          'password',
        );
        await signInSession(request, user, deps.clock.now());
        return reply.redirect(target === '/' ? homeOf[user.role] : target, 303);
      } catch (error) {
        const code = error instanceof DoorpostError ? error.code : null;
        if (code === 'not-signed-in') return back('yes');
        if (code === 'too-many-requests') return back('wait');
        throw error;
      }
    },
  );

  app.post('/sign-out', { config: { access: everyone } }, async (request, reply) => {
    await store.audit.record(actorOf(request), 'sign-out', 'session');
    await signOutSession(request);
    return reply.redirect('/sign-in?notice=signed-out', 303);
  });
}

function passwordPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, config } = deps;
  app.get('/password', { config: { access: everyone } }, async (request, reply) => {
    const { hasPassword } = await store.users.get(actorOf(request).userId);
    return reply.page(<PasswordPage hasPassword={hasPassword} error="" />);
  });

  app.post('/password/elsewhere', { config: { access: everyone } }, async (request, reply) => {
    const actor = actorOf(request);
    const user = await store.users.endSessions(actor.userId, 'sign-out', actor);
    await signInSession(request, user, deps.clock.now());
    return reply.redirect('/password?notice=signed-out-elsewhere', 303);
  });

  app.post<{ Body: Fields }>(
    '/password',
    { config: { access: everyone, rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' } } },
    async (request, reply) => {
      const { present = '', next = '', again = '' } = request.body ?? {};
      try {
        if (next !== again)
          throw new DoorpostError('invalid-value', 'The new password was typed in two ways', {
            field: 'again',
          });
        const user = await changeOwnPassword(request, deps, { present, next });
        await signInSession(request, user, deps.clock.now());
        return reply.redirect(`${homeOf[user.role]}?notice=password-changed`, 303);
      } catch (error) {
        if (!(error instanceof DoorpostError) || error.status >= 500) throw error;
        const words = `${error.message}.${error.place.accepted ? ` Accepted: ${error.place.accepted}.` : ''}`;
        return reply.page(<PasswordPage hasPassword={true} error={words} />, error.status);
      }
    },
  );
}
