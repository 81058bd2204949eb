import type { FastifyInstance } from 'fastify';
import * as oidc from 'openid-client';
import { DoorpostError } from '../errors.js';
import { type Role, roles } from '../store/contract.js';
import type { ServiceDeps } from './dependencies.js';
import { signInSession } from './session.js';

/**
 * Sign-in through the hospital's OpenID Connect provider: authorisation code flow with PKCE, state and nonce. The role
 * comes with each sign-in from the claim named in the configuration; who has none of our roles stays outside.
 */
export async function registerOidc(app: FastifyInstance, deps: ServiceDeps): Promise<void> {
  const settings = deps.config.oidc;
  if (!settings) return;
  let discovered: Promise<oidc.Configuration> | null = null;
  const provider = () => {
    discovered ??= discover(settings).catch((error) => {
      discovered = null;
      throw error;
    });
    return discovered;
  };
  const redirectUri = (host: string) => `${deps.config.publicUrl ?? `http://${host}`}/oidc/callback`;

  app.get('/oidc/start', { config: { access: 'public' } }, async (request, reply) => {
    const config = await provider();
    const { then } = request.query as { then?: string };
    const verifier = oidc.randomPKCECodeVerifier();
    const [state, nonce] = [oidc.randomState(), oidc.randomNonce()];
    request.session.oidc = { verifier, state, nonce, goTo: ownPath(then) };
    const to = oidc.buildAuthorizationUrl(config, {
      redirect_uri: redirectUri(request.host),
      scope: 'openid profile',
      code_challenge: await oidc.calculatePKCECodeChallenge(verifier),
      code_challenge_method: 'S256',
      state,
      nonce,
    });
    return reply.redirect(to.href, 303);
  });

  app.get('/oidc/callback', { config: { access: 'public' } }, async (request, reply) => {
    const expected = request.session.oidc;
    if (!expected) throw new DoorpostError('not-signed-in', 'This sign-in was not begun here: start again');
    delete request.session.oidc;
    const here = new URL(redirectUri(request.host));
    here.search = request.raw.url?.split('?')[1] ?? '';
    const tokens = await oidc
      .authorizationCodeGrant(await provider(), here, {
        pkceCodeVerifier: expected.verifier,
        expectedState: expected.state,
        expectedNonce: expected.nonce,
        idTokenExpected: true,
      })
      .catch(() => {
        throw new DoorpostError('not-signed-in', 'The sign-in provider did not confirm this sign-in');
      });
    const claims = tokens.claims() as oidc.IDToken;
    const given = claims[settings.roleClaim];
    const role = roles.find((r) => (Array.isArray(given) ? given.includes(r) : given === r));
    if (!role) {
      throw new DoorpostError('not-allowed', 'Your account has no role in doorpost', {
        field: settings.roleClaim,
        accepted: roles.join(', '),
      });
    }
    const name = String(claims.preferred_username ?? claims.sub);
    const user = await deps.store.users.fromOidc({
      issuer: claims.iss,
      subject: claims.sub,
      name,
      displayName: String(claims.name ?? name),
      role: role satisfies Role,
    });
    if (user.disabled) throw new DoorpostError('not-allowed', 'This account is closed');
    await signInSession(request, user);
    await deps.store.audit.record({
      actor: { userId: user.id, name: user.name, role: user.role, requestId: request.id },
      action: 'sign-in',
      resource: 'session',
      detail: { by: 'oidc' },
    });
    return reply.redirect(expected.goTo, 303);
  });
}

async function discover(settings: NonNullable<ServiceDeps['config']['oidc']>): Promise<oidc.Configuration> {
  const issuer = new URL(settings.issuer);
  // Plain http only for a provider on this very machine, as in a test.
  const local = ['localhost', '127.0.0.1', '[::1]'].includes(issuer.hostname);
  return oidc.discovery(issuer, settings.clientId, settings.clientSecret, undefined, {
    execute: local && issuer.protocol === 'http:' ? [oidc.allowInsecureRequests] : [],
  });
}

/** Only a path of this service, so that the sign-in cannot be used to send people elsewhere. */
export const ownPath = (then: string | undefined): string =>
  then && /^\/(?![/\\])[^\r\n]*$/.test(then) ? then : '/';
