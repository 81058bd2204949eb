import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { Child } from '../../records/records.js';
import { administrators, recordKeepers } from '../../records/roles.js';
import { LONGEST_REASON, reason } from '../../service/api/schemas/common.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { passwordAgain } from '../../service/sign-in/password-again.js';
import { Form, InputField, PasswordAgain, Problem, Submit } from '../parts/form.js';
import { ChildLayout, Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { type Asked, pagesOf, refusalOf } from '../parts/pages-of.js';
import { childPath, Go } from '../parts/paths.js';

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

/** What is held about one child: a copy to hand over, and for administrators the way to erase it. */
function RecordPage(props: { child: Pick<Child, 'id' | 'name'>; askPassword: boolean; error: string }) {
  const { child, askPassword, error } = props;
  const base = childPath(child.id);
  const { user } = usePage();
  const mayErase = user !== null && administrators.includes(user.role);
  return (
    <ChildLayout child={child} title="Copy of the record">
      <Section id="copy" title="For the family or another clinic">
        <p>
          What is held about this child, as far as your role sees it: readings, devices, judgements, skin, and
          who looked at the record. The access log keeps that a copy was taken.
        </p>
        <p class="row">
          <Go to={`/api${base}/export`}>Everything, as JSON</Go>
          <Go to={`/api${base}/export?format=fhir`}>For another system, as FHIR R4</Go>
        </p>
      </Section>
      {mayErase && (
        <Section id="erase" title="Erase the record">
          <p>
            <strong>This cannot be taken back.</strong> Readings, devices, judgements, links and what imports
            showed of this child go. That the record was there, when and why it was erased, and the access log
            stay. Backups taken before still hold it.
          </p>
          <Problem error={error} />
          <Form action={`${base}/record/erase`}>
            <InputField label="Why, without names" name="reason" required maxLength={LONGEST_REASON} />
            <InputField label="The child's number, typed again" name="number" required autocomplete="off" />
            <PasswordAgain asked={askPassword} />
            <Submit>Erase for good</Submit>
          </Form>
        </Section>
      )}
    </ChildLayout>
  );
}
