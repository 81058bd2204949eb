import { fieldLimits } from '../../records/field-limits.js';
import { childRecord } from '../../records/records.js';
import { Csrf, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { choices, labelOf } from './child-form.js';

const fields = childRecord.shape;

export function NewChildPage(props: {
  context: PageContext;
  typed: Readonly<Record<string, string | undefined>>;
  error: string;
}) {
  const { context, typed, error } = props;
  return (
    <Layout title="New child" context={context}>
      <h1>New child</h1>
      {error && (
        <p class="error" role="alert">
          {error}
        </p>
      )}
      <form method="post" action="/children" class="card">
        <Csrf context={context} />
        <div class="row">
          <p class="field">
            <label for="id">Clinic's number</label>
            <input id="id" name="id" required {...fieldLimits(fields.id)} value={typed.id} autofocus />
          </p>
          <p class="field">
            <label for="name">{labelOf('name')}</label>
            <input
              id="name"
              name="name"
              {...fieldLimits(fields.name)}
              value={typed.name}
              autocomplete="off"
            />
          </p>
          <p class="field">
            <label for="birthDate">{labelOf('birthDate')}</label>
            <input
              id="birthDate"
              name="birthDate"
              type="date"
              required
              max={context.today}
              value={typed.birthDate}
            />
          </p>
          <p class="field">
            <label for="sex">{labelOf('sex')}</label>
            <select id="sex" name="sex">
              {(['female', 'male', 'unknown'] as const).map((s) => (
                <option key={s} value={s} selected={s === typed.sex}>
                  {choices.sex[s]}
                </option>
              ))}
            </select>
          </p>
          <p class="field">
            <label for="gestationWeeks">
              {labelOf('gestationWeeks')} <small>if early</small>
            </label>
            <input
              id="gestationWeeks"
              name="gestationWeeks"
              type="number"
              {...fieldLimits(fields.gestationWeeks)}
              value={typed.gestationWeeks}
            />
          </p>
          <p class="field">
            <label for="contact">{labelOf('contact')}</label>
            <input id="contact" name="contact" {...fieldLimits(fields.contact)} value={typed.contact} />
          </p>
          <p class="field">
            <label for="language">{labelOf('language')}</label>
            <input
              id="language"
              name="language"
              {...fieldLimits(fields.language)}
              value={typed.language ?? 'en'}
              size={6}
            />
          </p>
        </div>
        <p>
          <label>
            <input type="checkbox" name="insensateSkin" value="yes" checked={typed.insensateSkin === 'yes'} />{' '}
            insensate skin
          </label>{' '}
          <label>
            <input type="checkbox" name="latexAlert" value="yes" checked={typed.latexAlert === 'yes'} /> latex
            alert
          </label>
        </p>
        <button type="submit" class="main-action">
          Save child
        </button>
      </form>
    </Layout>
  );
}
