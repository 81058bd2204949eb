import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { administrators, recordKeepers } from '../../records/roles.js';
import { reason } from '../../service/api/schemas/common.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { passwordAgain } from '../../service/sign-in/password-again.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { refusalOf } from '../parts/refusal-of.js';
import { RecordPage } from './record-page.js';

export function registerRecordPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post } = pagesOf(app, deps);

  const page = async ({ id, actor }: Asked, error = '') => {
    const child = await store.children.get(id, actor);
    const { hasPassword } = await store.users.get(actor.userId);
    return <RecordPage child={child.value} askPassword={hasPassword} error={error} />;
  };

  get('/children/:id/record', recordKeepers, (asked) => page(asked));

  post('/children/:id/record/erase', administrators, async (asked) => {
    const { request, reply, id, body } = asked;
    const why = reason.safeParse(body.reason);
    const mayErase = async () => {
      if (!why.success)
        throw new DoorpostError('invalid-value', 'Why it is erased is kept: say it in a few words');
      if (body.number?.trim() !== id)
        throw new DoorpostError('invalid-value', 'The number typed is not the number of this child');
      await passwordAgain(request, deps, body.password ?? '', 'to erase a record');
    };
    const error = await refusalOf(mayErase());
    if (error) return reply.page(await page(asked, error), 422);
    return reply.save(async (tx, actor) => {
      await tx.children.erase(id, why.data!, actor);
      return '/children?notice=child-erased';
    });
  });
}
