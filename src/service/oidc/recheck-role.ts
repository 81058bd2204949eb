import type { FastifyRequest } from 'fastify';
import * as oidc from 'openid-client';
import type { Role, User } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import type { OidcClient } from './oidc-client.js';
import { roleInClaims } from './role-in-claims.js';

/** Kept in the session of a person who came through the provider. */
export interface OidcRole {
  readonly subject: string;
  readonly accessToken: string;
  readonly refreshToken: string | null;
  /** When the provider last said which role, ms since 1970. */
  readonly confirmedAt: number;
}

/** So many rechecks may fail because the provider does not answer; then the session ends. */
const MISSED_RECHECKS = 3;

/** What the provider said: a role, none (withdrawn, or the sign-in there has ended), or nothing that can be read. */
type Answer = { readonly role: Role; readonly kept: OidcRole } | 'none' | 'no-answer';

/**
 * Asks the provider every few minutes of use whether a person still has the role, so that one withdrawn there acts here
 * without waiting for the session to end. Gives the user to go on with, or null where the session has to end.
 */
export function roleRecheck(
  client: OidcClient,
  { store, clock }: ServiceDeps,
): (request: FastifyRequest, user: User) => Promise<User | null> {
  const asking = new Map<string, Promise<Answer>>();
  const intervalMs = client.settings.recheckMinutes * 60_000;
  return async (request, user) => {
    const kept = request.session.oidcRole;
    if (kept === undefined) return user;
    const age = clock.now().getTime() - kept.confirmedAt;
    if (age < intervalMs) return user;
    // Requests of one page come together and share one question.
    const id = request.session.sessionId;
    const question =
      asking.get(id) ?? ask(client, kept, clock.now().getTime()).finally(() => asking.delete(id));
    asking.set(id, question);
    const answer = await question;
    if (answer === 'no-answer') return age < intervalMs * MISSED_RECHECKS ? user : null;
    const actor = { userId: user.id, name: user.name, role: user.role, requestId: request.id };
    if (answer === 'none') {
      await store.users.endSessions(user.id, 'role-withdrawn', actor);
      return null;
    }
    request.session.oidcRole = answer.kept;
    if (answer.role === user.role) return user;
    const changed = await store.users.fromOidc({
      issuer: client.settings.issuer,
      subject: kept.subject,
      name: user.name,
      displayName: user.displayName,
      role: answer.role,
    });
    request.session.userVersion = changed.version;
    return changed;
  };
}

async function ask({ settings, configuration }: OidcClient, kept: OidcRole, now: number): Promise<Answer> {
  try {
    const config = await configuration();
    const said = async (accessToken: string, refreshToken: string | null, more: object): Promise<Answer> => {
      const info = await oidc.fetchUserInfo(config, accessToken, kept.subject);
      const role = roleInClaims({ ...more, ...info }, settings.roleClaim);
      return role === null
        ? 'none'
        : { role, kept: { ...kept, accessToken, refreshToken, confirmedAt: now } };
    };
    try {
      const answer = await said(kept.accessToken, kept.refreshToken, {});
      if (answer !== 'none' || kept.refreshToken === null) return answer;
    } catch (error) {
      if (!isRefusal(error)) throw error;
      if (kept.refreshToken === null) return 'none';
    }
    // The token has run out, or the role stands only in the identity token: a new one says.
    const tokens = await oidc.refreshTokenGrant(config, kept.refreshToken);
    return await said(tokens.access_token, tokens.refresh_token ?? kept.refreshToken, tokens.claims() ?? {});
  } catch (error) {
    return isRefusal(error) ? 'none' : 'no-answer';
  }
}

/** The provider answered, and said no: the token, the session or the account has ended there. */
const isRefusal = (error: unknown): boolean =>
  error instanceof oidc.WWWAuthenticateChallengeError ||
  (error instanceof oidc.ResponseBodyError && error.status >= 400 && error.status < 500);
