import * as oidc from 'openid-client';
import type { Configuration } from '../configuration.js';

export type OidcSettings = NonNullable<Configuration['oidc']>;

/** The provider as it describes itself; asked once, again after a failure. */
export interface OidcClient {
  readonly settings: OidcSettings;
  configuration(): Promise<oidc.Configuration>;
}

export function oidcClient(settings: OidcSettings): OidcClient {
  let discovered: Promise<oidc.Configuration> | null = null;
  return {
    settings,
    configuration() {
      discovered ??= discover(settings).catch((error) => {
        discovered = null;
        throw error;
      });
      return discovered;
    },
  };
}

async function discover(settings: OidcSettings): Promise<oidc.Configuration> {
  const issuer = new URL(settings.issuer);
  // Plain http only for a provider on this very machine, as in a test.
  const local = ['localhost', '127.0.0.1', '[::1]'].includes(issuer.hostname);
  return oidc.discovery(issuer, settings.clientId, settings.clientSecret, undefined, {
    execute: local && issuer.protocol === 'http:' ? [oidc.allowInsecureRequests] : [],
    timeout: 10,
  });
}
