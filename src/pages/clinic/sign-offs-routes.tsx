import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { clinicians, everyone } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { signature, signDefault, signOffViews } from '../../service/sign-offs.js';
import type { Fields } from '../parts/route-types.js';
import { SignOffsPage } from './sign-offs-page.js';

export function registerSignOffPages(app: FastifyInstance, deps: ServiceDeps): void {
  const show = async (request: FastifyRequest, reply: FastifyReply, error = '') =>
    reply.page(
      <SignOffsPage
        views={await signOffViews(deps.store)}
        maySign={request.user?.role === 'clinician'}
        error={error}
      />,
      error ? 400 : 200,
    );

  app.get('/sign-offs', { config: { access: everyone } }, (request, reply) => show(request, reply));

  app.post<{ Body: Fields }>('/sign-offs', { config: { access: clinicians } }, async (request, reply) => {
    const { subject, content, name, profession } = request.body ?? {};
    const read = signature.safeParse({ subject, content, name, profession });
    if (!read.success)
      return show(request, reply, 'Write your name, and your profession with the registration, to sign.');
    return reply.save(async (tx, actor) => {
      await signDefault(tx, read.data, actor);
      return '/sign-offs?notice=default-signed';
    });
  });
}
