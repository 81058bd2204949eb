import type { FastifyInstance, FastifyReply } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { staff } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { capacityOf } from '../../store/contract.js';
import { type Fields, pagesOf } from '../parts/pages-of.js';
import { CapacityRefused, capacityForm, readCapacity } from './capacity-form.js';
import { CapacityPage } from './capacity-page.js';

export function registerCapacityPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post } = pagesOf(app, deps);

  const show = async (reply: FastifyReply, entered: Fields | null, errors: readonly string[] = []) => {
    const { value, version } = await store.settings.get();
    return reply.page(
      <CapacityPage
        form={entered ?? capacityForm(capacityOf(value))}
        version={entered ? Number(entered.version) : version}
        errors={errors}
      />,
      errors.length > 0 ? 422 : 200,
    );
  };

  get('/capacity', staff, ({ reply }) => show(reply, null));

  post('/capacity', staff, async ({ reply, body: form }) => {
    try {
      const capacity = readCapacity(form);
      return await reply.save(async (tx, actor) => {
        await tx.settings.change(capacity, Number(form.version), actor);
        return '/capacity?notice=settings-saved';
      });
    } catch (error) {
      if (!(error instanceof DoorpostError)) throw error;
      // What was typed is not lost.
      return show(reply, form, error instanceof CapacityRefused ? error.problems : [`${error.message}.`]);
    }
  });
}
