import { fieldLimits } from '../../records/field-limits.js';
import { childRecord } from '../../records/records.js';
import { InputField, Problem, SelectField } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { type ChildField, choices, labelOf, ticks } from './child-form.js';

export function NewChildPage(props: { typed: Readonly<Record<string, string | undefined>>; error: string }) {
  const { today } = usePage();
  const { typed, error } = props;
  const about = (name: ChildField) => ({
    name,
    label: labelOf(name),
    ...fieldLimits(childRecord.shape[name]),
    value: typed[name],
  });
  return (
    <Layout title="New child">
      <h1>New child</h1>
      <Problem error={error} />
      <Form action="/children" class="card">
        <div class="row">
          <InputField
            name="id"
            label="Clinic's number"
            required
            {...fieldLimits(childRecord.shape.id)}
            value={typed.id}
            autofocus
          />
          <InputField {...about('name')} autocomplete="off" />
          <InputField {...about('birthDate')} type="date" required max={today} />
          <SelectField
            name="sex"
            label={labelOf('sex')}
            of={Object.entries(choices.sex)}
            chosen={typed.sex}
          />
          <InputField {...about('gestationWeeks')} hint="if early" type="number" />
          <InputField {...about('contact')} />
          <InputField {...about('language')} value={typed.language ?? 'en'} size={6} />
        </div>
        <p>
          {(['insensateSkin', 'latexAlert'] as const).map((name) => (
            <label key={name}>
              <input type="checkbox" name={name} value="yes" checked={typed[name] === 'yes'} /> {
                ticks[name]
              }{' '}
            </label>
          ))}
        </p>
        <Submit main>Save child</Submit>
      </Form>
    </Layout>
  );
}
