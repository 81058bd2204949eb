import type { ChildField } from '../../records/child-fields.js';
import { fieldLimits } from '../../records/field-limits.js';
import { childRecord } from '../../records/records.js';
import { InputField, Problem } from '../parts/fields.js';
import { Form } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildErrors, ChildFields } from './child-fields.js';
import type { ReadChild } from './child-form.js';

/** What is asked of a child that is not known yet; the rest is a matter of its page. */
export const newChildFields: readonly ChildField[] = [
  'name',
  'birthDate',
  'sex',
  'gestationWeeks',
  'contact',
  'language',
  'affectedSide',
  'insensateSkin',
  'latexAlert',
  'conditions',
];

export function NewChildPage({ read, error }: { read: Omit<ReadChild, 'change'>; error: string }) {
  const { today } = usePage();
  return (
    <Layout title="New child">
      <h1>New child</h1>
      <Problem error={error} />
      <ChildErrors errors={read.errors} />
      <Form action="/children" class="card" send="Save child" main>
        <InputField
          name="id"
          label="Clinic's number"
          required
          {...fieldLimits(childRecord.shape.id)}
          value={read.typed.id}
          autofocus={Object.keys(read.errors).length === 0 && error === ''}
        />
        <ChildFields of={newChildFields} read={read} meanwhile={null} latestBirth={today} />
      </Form>
    </Layout>
  );
}
