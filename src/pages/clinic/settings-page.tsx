import { familyLabel } from '../../charts/device-label.js';
import { acceptedChance } from '../../recall/decide/accepted-chance.js';
import { fieldLimits } from '../../records/field-limits.js';
import type { ReadLanguage } from '../../service/native-readers.js';
import {
  type ClinicSettings,
  clinicSettings,
  families,
  monthsToNext,
  type Versioned,
} from '../../store/contract.js';
import { InputField, Problem } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { BackupSection } from './backup-section.js';
import { LanguagesSection } from './languages-section.js';

const { shape } = clinicSettings;
export const settingLimits = {
  clinicName: fieldLimits(shape.clinicName),
  contact: fieldLimits(shape.contact),
  acceptedChance: fieldLimits(shape.acceptedChance),
  harmInsensate: fieldLimits(shape.harmInsensate),
};
export const monthLimits = fieldLimits(monthsToNext);

export function SettingsPage(props: {
  settings: Versioned<ClinicSettings>;
  languages: readonly ReadLanguage[];
  /** Does this administrator sign in by a password of doorpost's own? */
  askPassword: boolean;
  error: string;
}) {
  const { settings, error } = props;
  const { value, version } = settings;
  return (
    <Layout title="Settings">
      <h1>Settings</h1>
      <Problem error={error} />
      <Form action="/settings" class="card" hidden={{ version }}>
        <div class="row">
          <InputField
            label="Clinic's name"
            name="clinicName"
            value={value.clinicName}
            {...settingLimits.clinicName}
          />
          <InputField
            label="Whom families call"
            hint="with the telephone number: it stands on sheet, page and letters"
            name="contact"
            value={value.contact}
            {...settingLimits.contact}
          />
        </div>
        <div class="row">
          <InputField
            label="Accepted chance of being beyond use before the next is fitted, %"
            hint="usual 33"
            name="acceptedChance"
            type="number"
            min={settingLimits.acceptedChance.min! * 100}
            max={settingLimits.acceptedChance.max! * 100}
            value={Math.round(value.acceptedChance * 100)}
          >
            <small>
              Lower: more casts a year and more wear thrown away. Higher: more days beyond use. It holds for
              ordinary skin; where a day matters twice as much a chance of{' '}
              {Math.round(acceptedChance(2, value) * 100)} % is accepted.
            </small>
          </InputField>
          <InputField
            label="A day beyond use on skin that does not feel counts as so many"
            hint="usual 3"
            name="harmInsensate"
            type="number"
            {...settingLimits.harmInsensate}
            step="0.5"
            value={value.harmInsensate}
          >
            <small>
              So there a chance of {Math.round(acceptedChance(value.harmInsensate, value) * 100)} % is
              accepted.
            </small>
          </InputField>
        </div>
        <details open={Object.keys(value.eligibleAfterMonths).length > 0}>
          <summary>Months before the funder pays for the next device of a side</summary>
          <p class="hint">
            By family; empty is no rule. A cast is planned no earlier, and a need that comes sooner says so on
            the list. A child outgrown before that day needs the funder's exception, not a wait.
          </p>
          <div class="row">
            {families.map((family) => (
              <InputField
                key={family}
                label={familyLabel(family)}
                name={`months-${family}`}
                type="number"
                class="short"
                {...monthLimits}
                value={value.eligibleAfterMonths[family] || ''}
              />
            ))}
          </div>
        </details>
        <Submit main>Save settings</Submit>
      </Form>
      <LanguagesSection languages={props.languages} />
      <BackupSection askPassword={props.askPassword} />
    </Layout>
  );
}
