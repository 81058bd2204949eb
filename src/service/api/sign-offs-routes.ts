import { z } from 'zod';
import type { ServiceDeps } from '../dependencies.js';
import { signature, signDefault, signOffSubjects, signOffViews } from '../sign-offs.js';
import { write } from '../write.js';
import { type Api, clinical, route, signedIn } from './api.js';
import { itemsOf, stamp } from './schemas/common.js';

const tags = ['Sign-offs'];
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
export function signOffsRoutes(api: Api, { store }: ServiceDeps): void {
  api.get(
    '/sign-offs',
    route(
      signedIn,
      tags,
      'Which defaults a practitioner of the clinic has read and signed, and which not yet',
      { 200: itemsOf(view) },
    ),
    async () => ({ items: [...(await signOffViews(store))] }),
  );

  api.post(
    '/sign-offs',
    route(
      clinical,
      tags,
      'Sign one of them; nothing is ever removed',
      { 201: itemsOf(view) },
      { body: signature },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await signDefault(tx, request.body, actor);
        return { status: 201, body: { items: await signOffViews(tx) } };
      }),
  );
}
