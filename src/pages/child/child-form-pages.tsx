import { type ChildField, type ChildPart, fieldsIn } from '../../records/child-fields.js';
import { fieldLimits } from '../../records/field-limits.js';
import { type Child, childRecord } from '../../records/records.js';
import { announced, Form, InputField, Problem, Submit } from '../parts/form.js';
import { ChildLayout, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';
import { ChildErrors, ChildFields } from './child-fields.js';
import type { Read } from './child-form.js';

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

export function NewChildPage({ read, error }: { read: Read; error: string }) {
  const { today } = usePage();
  return (
    <Layout titled title="New child">
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

/** What is everyday about a child: how to reach the family, alerts, what the growth reference needs, status. */
export function EditChildPage(props: {
  read: Read;
  /** The version the form was filled from; a save over a newer one is refused. */
  version: number;
  /** The child as somebody else stored it since, null without. */
  meanwhile: Child | null;
  clinical: boolean;
  latestBirth: string;
}) {
  const { version, clinical, ...around } = props;
  const { read, meanwhile } = around;
  const { id } = read.typed;
  const part = (of: ChildPart, legend: string, hint?: string) => (
    <fieldset>
      <legend>
        {legend} {hint && <small>{hint}</small>}
      </legend>
      <ChildFields of={fieldsIn(of)} {...around} />
    </fieldset>
  );
  return (
    <ChildLayout child={read.typed} title="Edit details">
      <ChildErrors errors={read.errors} />
      {meanwhile && (
        <div {...announced}>
          <p>
            Somebody else saved this child after you opened it, so nothing of yours was saved yet. Where the
            stored value differs from yours it stands under the field. Save again to store what this form
            says.
          </p>
        </div>
      )}
      <Form action={childPath(id, '/edit')} class="card edit" hidden={{ version }}>
        {part('reach', 'Reaching the family')}
        {clinical && part('alerts', 'Alerts')}
        {clinical &&
          part(
            'child',
            'The child',
            'growth is read by birth date, sex and conditions: a change moves every date',
          )}
        {clinical && part('care', 'Care')}
        {!clinical && (
          <p class="hint">Alerts, diagnosis, birth date and status are changed by a clinician.</p>
        )}
        <p class="row">
          <Submit main>{meanwhile ? 'Save mine' : 'Save'}</Submit>
          <a href={childPath(id)}>Leave without saving</a>
        </p>
      </Form>
    </ChildLayout>
  );
}
