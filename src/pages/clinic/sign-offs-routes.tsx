import type { FastifyInstance } from 'fastify';
import { clinicians, everyone } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { signature, signDefault, signOffViews } from '../../service/sign-offs.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { SignOffsPage } from './sign-offs-page.js';

export function registerSignOffPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { get, post } = pagesOf(app, deps);
  const page = async ({ request }: Asked, error = '') => {
    const views = await signOffViews(deps.store);
    return <SignOffsPage views={views} maySign={request.user?.role === 'clinician'} error={error} />;
  };

  get('/sign-offs', everyone, (asked) => page(asked));

  post('/sign-offs', clinicians, async (asked) => {
    const { subject, content, name, profession } = asked.body;
    const read = signature.safeParse({ subject, content, name, profession });
    const again = 'Write your name, and your profession with the registration, to sign.';
    if (!read.success) return asked.reply.page(await page(asked, again), 400);
    return asked.reply.save(async (tx, actor) => {
      await signDefault(tx, read.data, actor);
      return '/sign-offs?notice=default-signed';
    });
  });
}
