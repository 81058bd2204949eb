import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { actorOf } from '../../service/access.js';
import { capacityOf } from '../../service/api/schemas/clinic-settings.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { staff } from '../../service/roles.js';
import { slotsByWeek } from '../../service/slots-by-week.js';
import { pageContext, sendPage } from '../parts/page-context.js';
import type { Form } from '../parts/route-types.js';
import { capacityForm, readCapacity } from './capacity-form.js';
import { CapacityPage } from './capacity-page.js';

const WEEKS_AHEAD = 26;

export function registerCapacityPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const access = { config: { access: staff } };

  const show = async (request: FastifyRequest, reply: FastifyReply, entered?: Form, error = '') => {
    const { value, version } = await store.settings.get();
    return sendPage(
      reply,
      <CapacityPage
        context={await pageContext(request, reply, deps)}
        form={entered ?? capacityForm(capacityOf(value))}
        version={entered ? Number(entered.version) : version}
        error={error}
        weeks={slotsByWeek(value, clock.today(), WEEKS_AHEAD)}
      />,
      error ? 422 : 200,
    );
  };

  app.get('/capacity', access, (request, reply) => show(request, reply));

  app.post<{ Body: Form }>('/capacity', access, async (request, reply) => {
    const form = request.body ?? {};
    try {
      await store.settings.change(readCapacity(form), Number(form.version), actorOf(request));
    } catch (error) {
      if (!(error instanceof DoorpostError)) throw error;
      // What was typed is not lost.
      const accepted = error.place.accepted ? ` Accepted: ${error.place.accepted}.` : '';
      return show(request, reply, form, `${error.message}.${accepted}`);
    }
    return reply.redirect('/capacity?notice=settings-saved', 303);
  });
}
