import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../../records/dates.js';
import { type Child, childRecord } from '../../records/records.js';
import { writersOf } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { refuseOthersFields } from '../../service/scheduler-fields.js';
import { type Asked, pagesOf, refusalOf } from '../parts/pages-of.js';
import { childPath } from '../parts/paths.js';
import { fieldsOf, type LatestBirth, type Read, readChildForm } from './child-form.js';
import { EditChildPage, NewChildPage, newChildFields } from './child-form-pages.js';

/** What a record says of the child: entered once; then changed, by a clinician all of it, by a scheduler how to reach the family. */
export function registerChildForms(app: FastifyInstance, deps: ServiceDeps): void {
  newChildPages(app, deps);
  editChildPages(app, deps);
}

function newChildPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { get, post } = pagesOf(app, deps);
  /** A child of whom nothing is known yet; the day it was born is not guessed. */
  const blank = (id: string, birthDate: IsoDate) =>
    ({ ...childRecord.parse({ id: 'new', birthDate, sex: 'unknown' }), id }) as const;

  get('/children/new', writersOf.newChildren, async ({ today }) => (
    <NewChildPage read={{ typed: blank('', today), raw: { birthDate: '' }, errors: {} }} error="" />
  ));

  post('/children', writersOf.newChildren, async ({ reply, body, today }) => {
    const read = readChildForm(body, blank(body.id ?? '', today), newChildFields, null);
    const id = childRecord.shape.id.safeParse(body.id);
    const error = id.success ? '' : `id: ${id.error.issues[0].message}`;
    if (error || Object.keys(read.errors).length > 0)
      return reply.page(<NewChildPage read={read} error={error} />, 422);
    const refused = await refusalOf(
      reply.save(async (tx, actor) => {
        await tx.children.create(read.typed, today, actor);
        return childPath(read.typed.id);
      }),
    );
    return refused ? reply.page(<NewChildPage read={read} error={refused} />, 422) : reply;
  });
}

function editChildPages(app: FastifyInstance, deps: ServiceDeps): void {
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

  /** The form over the child as it is stored now; `meanwhile`: with what somebody else has stored. */
  const page = async (asked: Asked, read: (stored: Child) => Read, meanwhile = false) => {
    const { value: stored, version } = await store.children.get(asked.id, asked.actor);
    return (
      <EditChildPage
        read={read(stored)}
        version={version}
        meanwhile={meanwhile ? stored : null}
        clinical={asked.actor.role === 'clinician'}
        latestBirth={(await latestBirth(asked)).date}
      />
    );
  };

  get('/children/:id/edit', writersOf.children, (asked) =>
    page(asked, (stored) => ({ typed: stored, raw: {}, errors: {} })),
  );

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
    const again = async (status: number, meanwhile: boolean) =>
      reply.page(await page(asked, read, meanwhile), status);
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
