import type { Child } from '../../records/records.js';
import { administrators } from '../../records/roles.js';
import { LONGEST_REASON } from '../../service/api/schemas/common.js';
import { InputField, PasswordAgain, Problem } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildLink, childPath, Go } from '../parts/paths.js';

/** What is held about one child: a copy to hand over, and for administrators the way to erase it. */
export function RecordPage(props: {
  child: Pick<Child, 'id' | 'name'>;
  askPassword: boolean;
  error: string;
}) {
  const { child, askPassword, error } = props;
  const base = childPath(child.id);
  const { user } = usePage();
  const mayErase = user !== null && administrators.includes(user.role);
  return (
    <Layout title="Copy of the record">
      <p>
        <ChildLink {...child} />
      </p>
      <h1>Copy of the record</h1>
      <section aria-labelledby="copy">
        <h2 id="copy">For the family or another clinic</h2>
        <p>
          What is held about this child, as far as your role sees it: readings, devices, judgements, skin, and
          who looked at the record. The access log keeps that a copy was taken.
        </p>
        <p class="row">
          <Go to={`/api${base}/export`}>Everything, as JSON</Go>
          <Go to={`/api${base}/export?format=fhir`}>For another system, as FHIR R4</Go>
        </p>
      </section>
      {mayErase && (
        <section aria-labelledby="erase">
          <h2 id="erase">Erase the record</h2>
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
        </section>
      )}
    </Layout>
  );
}
