/** What doorpost adds to Fastify's requests, replies and route configuration. Imported for its types. */
import type { Access, SignedInUser } from './dependencies.js';

declare module 'fastify' {
  interface FastifyInstance {
    /** Every route, 'GET /api/children/:id', with who may use it. */
    accessTable: ReadonlyMap<string, Access>;
  }
  interface FastifyRequest {
    /** Who is signed in by cookie or bearer token, or null. */
    user: SignedInUser | null;
    /** How: a cookie needs the CSRF token on writes, a bearer token does not. */
    signedInBy: 'cookie' | 'bearer' | null;
  }
  interface FastifyReply {
    /** The token a form or script must send with a write made by cookie; empty when nobody is signed in. */
    csrfToken(): string;
  }
  interface FastifyContextConfig {
    access?: Access;
  }
  interface Session {
    userId?: string;
    /** The account's version at sign-in: a changed password or role ends the session. */
    userVersion?: number;
    _csrf?: string;
    /** Between leaving for the OpenID provider and coming back. */
    oidc?: { verifier: string; state: string; nonce: string; goTo: string };
  }
}
