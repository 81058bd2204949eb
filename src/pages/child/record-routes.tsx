import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { administrators, recordKeepers } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import { reason } from '../../service/api/schemas/common.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { passwordAgain } from '../../service/sign-in/password-again.js';
import { refusalOf } from '../parts/refusal-of.js';
import type { Fields } from '../parts/route-types.js';
import { RecordPage } from './record-page.js';

type Child = { Params: { id: string }; Body: Fields };

export function registerRecordPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;

  const show = async (request: FastifyRequest, reply: FastifyReply, id: string, error = '') => {
    const actor = actorOf(request);
    const child = await store.children.get(id, actor);
    const { hasPassword } = await store.users.get(actor.userId);
    return reply.page(
      <RecordPage child={child.value} askPassword={hasPassword} error={error} />,
      error ? 422 : 200,
    );
  };

  app.get<Child>('/children/:id/record', { config: { access: recordKeepers } }, (request, reply) =>
    show(request, reply, request.params.id),
  );

  app.post<Child>(
    '/children/:id/record/erase',
    { config: { access: administrators } },
    async (request, reply) => {
      const { id } = request.params;
      const body = request.body ?? {};
      const why = reason.safeParse(body.reason);
      const asked = async () => {
        if (!why.success)
          throw new DoorpostError('invalid-value', 'Why it is erased is kept: say it in a few words');
        if (body.number?.trim() !== id)
          throw new DoorpostError('invalid-value', 'The number typed is not the number of this child');
        await passwordAgain(request, deps, body.password ?? '', 'to erase a record');
      };
      const error = await refusalOf(asked());
      if (error) return show(request, reply, id, error);
      return reply.save(async (tx, actor) => {
        await tx.children.erase(id, why.data!, actor);
        return '/children?notice=child-erased';
      });
    },
  );
}
