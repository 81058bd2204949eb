import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { everyone } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { isFromThisMachine } from '../../service/from-this-machine.js';
import { signInSession, signOutSession } from '../../service/session.js';
import { changeOwnPassword } from '../../service/sign-in/change-own-password.js';
import { ownPath } from '../../service/sign-in/own-path.js';
import { passwordSignIn } from '../../service/sign-in/password-sign-in.js';
import { homeOf } from '../parts/layout.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { PasswordPage, SignInPage } from './sign-in-pages.js';

export function registerSignInPages(app: FastifyInstance, deps: ServiceDeps): void {
  signInPages(app, deps);
  passwordPages(app, deps);
}

function signInPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, config } = deps;
  const { get, post } = pagesOf(app, deps);
  get('/', everyone, async ({ request, reply }) =>
    reply.redirect(request.user ? homeOf[request.user.role] : '/sign-in', 303),
  );

  /** `name` is given back in the page alone: typed into the wrong field it may be a password, and addresses are kept. */
  const show = async (
    { request, reply }: Asked,
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

  get('/sign-in', 'public', async (asked) => {
    const { request, reply, query } = asked;
    if (request.user) return reply.redirect(homeOf[request.user.role], 303);
    return show(asked, { target: ownPath(query.then), failed: '', name: '' });
  });

  const signIn = async (asked: Asked) => {
    const { request, reply, body } = asked;
    const { name = '', password = '', then } = body;
    const target = ownPath(then);
    const back = (failed: 'yes' | 'wait') => show(asked, { target, failed, name: String(name).slice(0, 80) });
    try {
      const typed = { name: String(name), password: String(password) };
      const user = await passwordSignIn(request, deps, typed, 'password');
      await signInSession(request, user, deps.clock.now());
      return reply.redirect(target === '/' ? homeOf[user.role] : target, 303);
    } catch (error) {
      const code = error instanceof DoorpostError ? error.code : null;
      if (code === 'not-signed-in') return back('yes');
      if (code === 'too-many-requests') return back('wait');
      throw error;
    }
  };
  post('/sign-in', 'public', signIn, oftenAtMost(deps));

  post('/sign-out', everyone, async ({ request, reply, actor }) => {
    await store.audit.record(actor, 'sign-out', 'session');
    await signOutSession(request);
    return reply.redirect('/sign-in?notice=signed-out', 303);
  });
}

function passwordPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post } = pagesOf(app, deps);
  get('/password', everyone, async ({ actor }) => {
    const { hasPassword } = await store.users.get(actor.userId);
    return <PasswordPage hasPassword={hasPassword} error="" />;
  });

  post('/password/elsewhere', everyone, async ({ request, reply, actor }) => {
    const user = await store.users.endSessions(actor.userId, 'sign-out', actor);
    await signInSession(request, user, deps.clock.now());
    return reply.redirect('/password?notice=signed-out-elsewhere', 303);
  });

  const change = async ({ request, reply, body }: Asked) => {
    const { present = '', next = '', again = '' } = body;
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
  };
  post('/password', everyone, change, oftenAtMost(deps));
}

/** So often may one address try a password. */
const oftenAtMost = ({ config }: ServiceDeps) => ({
  rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' },
});
