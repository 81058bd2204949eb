import { z } from 'zod';
import type { ServiceDeps } from '../dependencies.js';
import { signature, signDefault, signOffSubjects, signOffViews } from '../sign-offs.js';
import { type Api, clinical, routesOf, signedIn } from './api.js';
import { itemsOf, stamp } from './schemas/common.js';

const subject = z.enum(signOffSubjects);
const view = z.object({
  subject,
  label: z.string(),
  says: z.string(),
  href: z.string().nullable(),
  content: z.string(),
  signed: z
    .object({
      subject: z.string(),
      content: z.string(),
      name: z.string(),
      profession: z.string(),
      by: z.string(),
      at: stamp,
    })
    .nullable(),
  holds: z.boolean(),
});

/** Shipped defaults are common practice: a licensed practitioner reads and signs them for the clinic. */
export function signOffsRoutes(api: Api, deps: ServiceDeps): void {
  const { get, write } = routesOf(api, deps, ['Sign-offs']);

  get(
    '/sign-offs',
    signedIn,
    'Which defaults a practitioner of the clinic has read and signed, and which not yet',
    { 200: itemsOf(view) },
    async () => ({ items: await signOffViews(deps.store) }),
  );
  write(
    'POST /sign-offs',
    clinical,
    'Sign one of them; nothing is ever removed',
    { body: signature, 201: itemsOf(view) },
    async ({ tx, body, actor }) => {
      await signDefault(tx, body, actor);
      return { items: await signOffViews(tx) };
    },
  );
}
