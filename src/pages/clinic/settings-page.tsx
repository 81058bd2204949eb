import { familyLabel } from '../../charts/device-label.js';
import { tableNames } from '../../exchange/csv/columns.js';
import { acceptedChance } from '../../recall/decide/accepted-chance.js';
import { fieldLimits } from '../../records/field-limits.js';
import type { ReadLanguage } from '../../service/native-readers.js';
import { signer } from '../../service/sign-offs.js';
import {
  type ClinicSettings,
  clinicSettings,
  families,
  monthsToNext,
  type Versioned,
} from '../../store/contract.js';
import { Form, InputField, PasswordAgain, Problem, SelectField, Submit } from '../parts/form.js';
import { Layout, Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Go } from '../parts/paths.js';

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
    <Layout titled title="Settings">
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
        <div class="row top-aligned">
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

/** Which languages of the family's page a native reader has found right; the others say on the page that nobody has. */
function LanguagesSection({ languages }: { languages: readonly ReadLanguage[] }) {
  const { format } = usePage();
  const unsigned = languages.filter((l) => !l.signed);
  return (
    <Section id="languages" title="Languages of the family's page">
      <p>
        Until a native reader has read the page and signed it here, the page itself says that nobody has. A
        new version of doorpost is to be read again.
      </p>
      <ul>
        {languages.map(({ language, name, signed }) => (
          <li key={language}>
            <span lang={language}>{name}</span>:{' '}
            {signed
              ? `read by ${signed.name}, ${signed.profession}, on ${format.day(signed.at)}`
              : 'not yet read by a native reader'}
          </li>
        ))}
      </ul>
      {unsigned.length > 0 && (
        <Form action="/settings/languages" class="row" send="Read and found right">
          <SelectField
            label="Language"
            name="language"
            of={unsigned.map((l) => [l.language, l.name] as const)}
          />
          <InputField
            label="Native reader"
            id="reader"
            name="name"
            required
            {...fieldLimits(signer.shape.name)}
          />
          <InputField
            label="Work"
            id="reader-work"
            name="profession"
            required
            {...fieldLimits(signer.shape.profession)}
            placeholder="interpreter, nurse"
          />
        </Form>
      )}
    </Section>
  );
}

/** Everything that is kept, as one file to take away, and how it comes back. */
function BackupSection({ askPassword }: { askPassword: boolean }) {
  return (
    <Section id="backup" title="Backup">
      <p>
        One file with every child, reading, device, list, user and log entry of this moment, while the service
        runs. It holds <strong>health data and the service's secrets</strong>: keep it as safe as the database
        itself, and not on this computer. The log says who took it and when.
      </p>
      <Form action="/settings/backup" class="row" send="Download the backup">
        <PasswordAgain asked={askPassword} />
      </Form>
      <p class="hint">
        To bring it back, whoever runs the server types <code>npx doorpost restore --from FILE</code> on a
        new, empty database. A file cut short or changed is refused whole. Try it once before you need it.
      </p>
      <h3>The records as files for other programs</h3>
      <p class="row">
        <Go to="/api/exports/fhir">All children, as FHIR R4</Go>
        <Go to="/api/exports/pseudonymised">For research, without names</Go>
      </p>
      <p class="row">
        {tableNames.map((table) => (
          <a key={table} href={`/api/exports/tables/${table}`}>
            {table}.csv
          </a>
        ))}
      </p>
      <p class="hint">Diagnoses are in them, but for research small groups are merged and dates shifted.</p>
    </Section>
  );
}
