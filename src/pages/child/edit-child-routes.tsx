import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../../records/dates.js';
import { writersOf } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { refuseOthersFields } from '../../service/scheduler-fields.js';
import { childPath } from '../parts/paths.js';
import type { Fields } from '../parts/route-types.js';
import { fieldsOf, readChildForm } from './child-form.js';
import { EditChildPage } from './edit-child-page.js';

type Child = { Params: { id: string }; Body: Fields };

/** Changing what a child's record says of the child: a clinician all of it, a scheduler how to reach the family. */
export function registerEditChildPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const access = { config: { access: writersOf.children } };

  /** Nobody is measured or cast before birth: the first such day, else today. */
  const latestBirth = async (id: string, actor: ReturnType<typeof actorOf>) => {
    const { measurements, devices } = await store.children.record(id, actor);
    const first = [...measurements.map((m) => m.date), ...devices.map((d) => d.castDate)].toSorted()[0];
    const today = clock.today();
    return first && first < today
      ? { date: first, because: 'the first reading or cast on record' }
      : { date: today as IsoDate, because: 'today' };
  };

  app.get<Child>('/children/:id/edit', access, async (request, reply) => {
    const actor = actorOf(request);
    const { id } = request.params;
    const { value, version } = await store.children.get(id, actor);
    return reply.page(
      <EditChildPage
        read={{ typed: value, raw: {}, errors: {} }}
        version={version}
        meanwhile={null}
        clinical={actor.role === 'clinician'}
        latestBirth={(await latestBirth(id, actor)).date}
      />,
    );
  });

  const form = { config: { ...access.config, repeated: ['transportDays', 'conditions'] } };
  app.post<Child>('/children/:id/edit', form, async (request, reply) => {
    const actor = actorOf(request);
    const { id } = request.params;
    const { _csrf, version: given = '', ...body } = request.body ?? {};
    refuseOthersFields(Object.keys(body), actor.role);
    const limit = await latestBirth(id, actor);
    if (!/^\d{1,9}$/.test(given))
      throw new DoorpostError('version-missing', 'Open the page again and repeat the change', {
        field: 'version',
      });
    /** Answers with the form filled as typed, over the child as it is stored now. */
    const again = async (status: number, meanwhile: boolean) => {
      const { value: stored, version } = await store.children.get(id, actor);
      return reply.page(
        <EditChildPage
          read={readChildForm(body, stored, fieldsOf(request.user!.role), limit)}
          version={version}
          meanwhile={meanwhile ? stored : null}
          clinical={actor.role === 'clinician'}
          latestBirth={limit.date}
        />,
        status,
      );
    };
    const { value: stored, version } = await store.children.get(id, actor);
    const { errors, change } = readChildForm(body, stored, fieldsOf(request.user!.role), limit);
    const [faulty, changed] = [errors, change].map((o) => Object.keys(o).length > 0);
    // A form sent twice finds itself stored already: nothing is lost by an older version then.
    if (Number(given) !== version && (faulty || changed)) return again(412, true);
    if (faulty) return again(422, false);
    try {
      return await reply.save(async (tx) => {
        if (changed) await tx.children.change(id, change, clock.today(), version, actor);
        return childPath(id, '?notice=child-saved');
      });
    } catch (error) {
      if (error instanceof DoorpostError && error.code === 'changed-meanwhile') return again(412, true);
      throw error;
    }
  });
}
