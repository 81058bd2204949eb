/** What doorpost adds to Fastify's requests, replies and route configuration. Imported for its types. */
import type { Access, SignedInUser } from './dependencies.js';
import type { OidcRole } from './oidc/recheck-role.js';
import type { Upload } from './uploads/read-multipart.js';
import type { UploadReader } from './uploads/upload-reader.js';

declare module 'fastify' {
  interface FastifyInstance {
    /** Every route, 'GET /api/children/:id', with who may use it. */
    accessTable: ReadonlyMap<string, Access>;
    /** Reads files that were sent, in a process of its own. */
    uploads: UploadReader;
  }
  interface FastifyRequest {
    /** Who is signed in by cookie or bearer token, or null. */
    user: SignedInUser | null;
    /** How: a cookie needs the CSRF token on writes, a bearer token does not. */
    signedInBy: 'cookie' | 'bearer' | null;
    /** What a page gave its forms to be sent once by: the same form sent again is the same write. */
    once: string | null;
    /** A form with files, on the routes that take one. */
    upload: Upload | null;
  }
  interface FastifyReply {
    /** The token a form or script must send with a write made by cookie; empty without a sign-in by cookie. */
    csrfToken(): string;
  }
  interface FastifyContextConfig {
    access?: Access;
    /** Takes a form with files (multipart/form-data). */
    upload?: boolean;
    /** Fields of its form that may stand there more than once, as ticked boxes do. */
    repeated?: readonly string[];
  }
  interface Session {
    userId?: string;
    /** The account's version at sign-in: a changed password or role ends the session. */
    userVersion?: number;
    /** When this person signed in, ms since 1970: the session ends so long after it. */
    startedAt?: number;
    /** The minute of the last use, or a shorter while where an idle session ends sooner. */
    usedIn?: number;
    _csrf?: string;
    /** Between leaving for the OpenID provider and coming back. */
    /** What the provider said of the role, to ask it again. */
    oidcRole?: OidcRole;
    oidc?: { verifier: string; state: string; nonce: string; goTo: string };
  }
}
