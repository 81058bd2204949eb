import type { ServiceDeps } from '../dependencies.js';
import { signature, signDefault, signOffView, signOffViews } from '../sign-offs.js';
import { type Api, clinical, routesOf, signedIn } from './api.js';
import { itemsOf } from './schemas/common.js';

/** Shipped defaults are common practice: a licensed practitioner reads and signs them for the clinic. */
export function signOffsRoutes(api: Api, deps: ServiceDeps): void {
  const { get, write } = routesOf(api, deps, ['Sign-offs']);

  get(
    '/sign-offs',
    signedIn,
    'Which defaults a practitioner of the clinic has read and signed, and which not yet',
    { 200: itemsOf(signOffView) },
    async () => ({ items: await signOffViews(deps.store) }),
  );
  write(
    'POST /sign-offs',
    clinical,
    'Sign one of them; nothing is ever removed',
    { body: signature, 201: itemsOf(signOffView) },
    async ({ tx, body, actor }) => {
      await signDefault(tx, body, actor);
      return { items: await signOffViews(tx) };
    },
  );
}
