/** Only what the test uses; the package ships no types. */
declare module 'oidc-provider' {
  export class Provider {
    constructor(issuer: string, configuration: Record<string, unknown>);
    callback(): (request: unknown, response: unknown) => void;
  }
}
