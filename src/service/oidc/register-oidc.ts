import type { FastifyInstance } from 'fastify';
import * as oidc from 'openid-client';
import { DoorpostError } from '../../errors.js';
import { roles } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import { signInSession } from '../session.js';
import { ownPath } from '../sign-in/own-path.js';
import type { OidcClient } from './oidc-client.js';
import { roleInClaims } from './role-in-claims.js';

/**
 * Sign-in through the hospital's OpenID Connect provider: authorisation code flow with PKCE, state and nonce. The role
 * comes with each sign-in from the claim named in the configuration; who has none of our roles stays outside.
 */
export function registerOidc(app: FastifyInstance, deps: ServiceDeps, client: OidcClient): void {
  const redirectUri = (host: string) => `${deps.config.publicUrl ?? `http://${host}`}/oidc/callback`;

  app.get('/oidc/start', { config: { access: 'public' } }, async (request, reply) => {
    const config = await client.configuration();
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
      .authorizationCodeGrant(await client.configuration(), here, {
        pkceCodeVerifier: expected.verifier,
        expectedState: expected.state,
        expectedNonce: expected.nonce,
        idTokenExpected: true,
      })
      .catch(() => {
        throw new DoorpostError('not-signed-in', 'The sign-in provider did not confirm this sign-in');
      });
    const claims = tokens.claims() as oidc.IDToken;
    const role = roleInClaims(claims, client.settings.roleClaim);
    if (!role) {
      throw new DoorpostError('not-allowed', 'Your account has no role in doorpost', {
        field: client.settings.roleClaim,
        accepted: roles.join(', '),
      });
    }
    const name = String(claims.preferred_username ?? claims.sub);
    const user = await deps.store.users.fromOidc({
      issuer: claims.iss,
      subject: claims.sub,
      name,
      displayName: String(claims.name ?? name),
      role,
    });
    if (user.disabled) throw new DoorpostError('not-allowed', 'This account is closed');
    await signInSession(request, user, deps.clock.now());
    request.session.oidcRole = {
      subject: claims.sub,
      accessToken: tokens.access_token,
      refreshToken: tokens.refresh_token ?? null,
      confirmedAt: deps.clock.now().getTime(),
    };
    await deps.store.audit.record(
      { userId: user.id, name: user.name, role: user.role, requestId: request.id },
      'sign-in',
      'session',
      { by: 'oidc' },
    );
    return reply.redirect(expected.goTo, 303);
  });
}
