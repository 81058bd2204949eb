import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { Child } from '../../records/records.js';
import { writersOf } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { refuseOthersFields } from '../../service/scheduler-fields.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { childPath } from '../parts/paths.js';
import { fieldsOf, type LatestBirth, readChildForm } from './child-form.js';
import { EditChildPage } from './edit-child-page.js';

/** Changing what a child's record says of the child: a clinician all of it, a scheduler how to reach the family. */
export function registerEditChildPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post } = pagesOf(app, deps);

  /** Nobody is measured or cast before birth: the first such day, else today. */
  const latestBirth = async ({ id, actor, today }: Asked): Promise<LatestBirth> => {
    const { measurements, devices } = await store.children.record(id, actor);
    const first = [...measurements.map((m) => m.date), ...devices.map((d) => d.castDate)].toSorted()[0];
    return first && first < today
      ? { date: first, because: 'the first reading or cast on record' }
      : { date: today, because: 'today' };
  };

  get('/children/:id/edit', writersOf.children, async (asked) => {
    const { value, version } = await store.children.get(asked.id, asked.actor);
    return (
      <EditChildPage
        read={{ typed: value, raw: {}, errors: {} }}
        version={version}
        meanwhile={null}
        clinical={asked.actor.role === 'clinician'}
        latestBirth={(await latestBirth(asked)).date}
      />
    );
  });

  const edit = async (asked: Asked) => {
    const { reply, id, actor, today } = asked;
    const { _csrf, version: given = '', ...body } = asked.body;
    refuseOthersFields(Object.keys(body), actor.role);
    const limit = await latestBirth(asked);
    if (!/^\d{1,9}$/.test(given))
      throw new DoorpostError('version-missing', 'Open the page again and repeat the change', {
        field: 'version',
      });
    const read = (stored: Child) => readChildForm(body, stored, fieldsOf(asked.request.user!.role), limit);
    /** Answers with the form filled as typed, over the child as it is stored now. */
    const again = async (status: number, meanwhile: boolean) => {
      const { value: stored, version } = await store.children.get(id, actor);
      return reply.page(
        <EditChildPage
          read={read(stored)}
          version={version}
          meanwhile={meanwhile ? stored : null}
          clinical={actor.role === 'clinician'}
          latestBirth={limit.date}
        />,
        status,
      );
    };
    const { value: stored, version } = await store.children.get(id, actor);
    const { errors, change } = read(stored);
    const [faulty, changed] = [errors, change].map((o) => Object.keys(o).length > 0);
    // A form sent twice finds itself stored already: nothing is lost by an older version then.
    if (Number(given) !== version && (faulty || changed)) return again(412, true);
    if (faulty) return again(422, false);
    try {
      return await reply.save(async (tx) => {
        if (changed) await tx.children.change(id, change, today, version, actor);
        return childPath(id, '?notice=child-saved');
      });
    } catch (error) {
      if (error instanceof DoorpostError && error.code === 'changed-meanwhile') return again(412, true);
      throw error;
    }
  };
  post('/children/:id/edit', writersOf.children, edit, { repeated: ['transportDays', 'conditions'] });
}
