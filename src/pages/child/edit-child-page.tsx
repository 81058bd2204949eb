import { growthHormoneColumns } from '../../forecast/record-until.js';
import { weekdayNames } from '../../records/dates.js';
import { fieldLimits } from '../../records/field-limits.js';
import { type Child, childRecord, conditionIds } from '../../records/records.js';
import { conditionNames } from '../../words/condition-names.js';
import { familyLanguages } from '../../words/family/family-languages.js';
import { languageName } from '../../words/language-name.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { type ChildField, labelOf, type ReadChild, textFields } from './child-form.js';
import { Choice, control, Field, group, Remark, Tick } from './edit-child-fields.js';

const weeks = fieldLimits(childRecord.shape.gestationWeeks);

/** What is everyday about a child: how to reach the family, alerts, what the growth reference needs, status. */
export function EditChildPage(props: {
  read: Pick<ReadChild, 'typed' | 'raw' | 'errors'>;
  /** The version the form was filled from; a save over a newer one is refused. */
  version: number;
  /** The child as somebody else stored it since, null without. */
  meanwhile: Child | null;
  /** All fields, or a scheduler's. */
  clinical: boolean;
  latestBirth: string;
}) {
  const { read, version, meanwhile, clinical, latestBirth } = props;
  const { typed, errors } = read;
  const base = `/children/${encodeURIComponent(typed.id)}`;
  const wrong = Object.keys(errors) as ChildField[];
  const field = { read, meanwhile };
  const text = (name: (typeof textFields)[number]['field'], wide = false) => {
    const { label, hint } = textFields.find((t) => t.field === name)!;
    return (
      <Field name={name} label={label} hint={hint} wide={wide} {...field}>
        <input
          {...control(name, read, meanwhile)}
          value={read.raw[name] ?? typed[name] ?? ''}
          {...fieldLimits(childRecord.shape[name])}
          autocomplete="off"
          list={name === 'language' ? 'languages' : undefined}
        />
        {name === 'language' && (
          <datalist id="languages">
            {familyLanguages.map(({ language }) => (
              <option key={language} value={language}>
                {languageName(language)}
              </option>
            ))}
          </datalist>
        )}
      </Field>
    );
  };
  return (
    <Layout title="Edit details">
      <p>
        <a href={base}>{typed.name || typed.id}</a>
      </p>
      <h1>Edit details</h1>
      {wrong.length > 0 && (
        <div class="error" role="alert">
          <p>Nothing was saved yet. Please look at:</p>
          <ul>
            {wrong.map((f) => (
              <li key={f}>
                <a href={`#${f}`}>{labelOf(f)}</a>: accepted is {errors[f]}
              </li>
            ))}
          </ul>
        </div>
      )}
      {meanwhile && (
        <div class="error" role="alert">
          <p>
            Somebody else saved this child after you opened it, so nothing of yours was saved yet. Where the
            stored value differs from yours it stands under the field. Save again to store what this form
            says.
          </p>
        </div>
      )}
      <Form action={`${base}/edit`} class="card edit" hidden={{ version }}>
        {' '}
        <fieldset>
          <legend>Reaching the family</legend>
          <div class="row">
            {text('contact', true)}
            {text('language')}
            {text('siblingGroup', true)}
            {text('clinician')}
          </div>
          <fieldset class="choices" {...group('transportDays', read, meanwhile)}>
            <legend>
              Days with transport <small>none ticked: any day</small>
            </legend>
            {weekdayNames.map((day, i) => (
              <label key={day}>
                <input
                  type="checkbox"
                  name="transportDays"
                  value={i + 1}
                  checked={typed.transportDays.includes(i + 1)}
                />
                {day}
              </label>
            ))}
            <Remark name="transportDays" {...field} />
          </fieldset>
          <p class="choices">
            <Tick name="prefersHolidays" {...field} />
          </p>
        </fieldset>
        {clinical ? (
          <>
            <fieldset>
              <legend>Alerts</legend>
              <p class="choices">
                <Tick name="insensateSkin" {...field} />
                <Tick name="latexAlert" {...field} />
                <Tick name="palliative" {...field} />
              </p>
            </fieldset>
            <fieldset>
              <legend>
                The child{' '}
                <small>growth is read by birth date, sex and conditions: a change moves every date</small>
              </legend>
              <div class="row">
                {text('name', true)}
                <Field name="birthDate" label="Born on" {...field}>
                  <input
                    {...control('birthDate', read, meanwhile)}
                    type="date"
                    required
                    max={latestBirth}
                    value={read.raw.birthDate ?? typed.birthDate}
                  />
                </Field>
                <Choice name="sex" {...field} />
                <Field
                  name="gestationWeeks"
                  label="Born at week"
                  hint={`if early, ${weeks.min} to ${weeks.max}`}
                  {...field}
                >
                  <input
                    {...control('gestationWeeks', read, meanwhile)}
                    inputMode="numeric"
                    size={4}
                    value={read.raw.gestationWeeks ?? typed.gestationWeeks ?? ''}
                  />
                </Field>
                <Choice name="affectedSide" {...field} />
              </div>
              <p class="choices">
                <Tick name="walks" {...field} />
              </p>
              <fieldset class="choices columns" {...group('conditions', read, meanwhile)}>
                <legend>Conditions</legend>
                {conditionIds.map((c) => (
                  <label key={c}>
                    <input
                      type="checkbox"
                      name="conditions"
                      value={c}
                      checked={typed.conditions.includes(c)}
                    />
                    {conditionNames[c]}
                  </label>
                ))}
                <Remark name="conditions" {...field} />
              </fieldset>
            </fieldset>
            <fieldset>
              <legend>Care</legend>
              <div class="row">
                <Choice name="status" {...field} />
              </div>
              <fieldset class="choices" {...group('extra', read, meanwhile)}>
                <legend>
                  Growth hormone <small>growth may run faster between these dates; empty: none</small>
                </legend>
                {Object.entries(growthHormoneColumns).map(([what, column]) => (
                  <label key={column}>
                    {what === 'start' ? 'from' : 'until'}{' '}
                    <input type="date" name={column} value={typed.extra[column] ?? ''} />
                  </label>
                ))}
                <Remark name="extra" {...field} />
              </fieldset>
            </fieldset>
          </>
        ) : (
          <p class="hint">Alerts, diagnosis, birth date and status are changed by a clinician.</p>
        )}
        <p class="row">
          <Submit main>{meanwhile ? 'Save mine' : 'Save'}</Submit>
          <a href={base}>Leave without saving</a>
        </p>
      </Form>
    </Layout>
  );
}
