import { familyLabel } from '../../charts/device-label.js';
import { acceptedChance } from '../../recall/decide/accepted-chance.js';
import { families } from '../../service/api/schemas/clinic-settings.js';
import type { ReadLanguage } from '../../service/native-readers.js';
import type { ClinicSettings, Versioned } from '../../store/contract.js';
import { Csrf, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { Problem } from './admin-pages.js';
import { BackupSection } from './backup-section.js';
import { LanguagesSection } from './languages-section.js';

export function SettingsPage(props: {
  context: PageContext;
  settings: Versioned<ClinicSettings>;
  languages: readonly ReadLanguage[];
  /** Does this administrator sign in by a password of doorpost's own? */
  askPassword: boolean;
  error: string;
}) {
  const { context, settings, error } = props;
  const { value, version } = settings;
  return (
    <Layout title="Settings" context={context}>
      <h1>Settings</h1>
      <Problem error={error} />
      <form method="post" action="/settings" class="card">
        <Csrf context={context} />
        <input type="hidden" name="version" value={version} />
        <div class="row">
          <p class="field">
            <label for="clinicName">Clinic's name</label>
            <input id="clinicName" name="clinicName" value={value.clinicName} maxLength={120} />
          </p>
          <p class="field">
            <label for="contact">
              Whom families call{' '}
              <small>with the telephone number: it stands on sheet, page and letters</small>
            </label>
            <input id="contact" name="contact" value={value.contact} maxLength={200} />
          </p>
        </div>
        <div class="row">
          <p class="field">
            <label for="acceptedChance">
              Accepted chance of being beyond use before the next is fitted, % <small>usual 33</small>
            </label>
            <input
              id="acceptedChance"
              name="acceptedChance"
              type="number"
              min={1}
              max={50}
              value={Math.round(value.acceptedChance * 100)}
            />
            <small>
              Lower: more casts a year and more wear thrown away. Higher: more days beyond use. It holds for
              ordinary skin; where a day matters twice as much a chance of{' '}
              {Math.round(acceptedChance(2, value) * 100)} % is accepted.
            </small>
          </p>
          <p class="field">
            <label for="harmInsensate">
              A day beyond use on skin that does not feel counts as so many <small>usual 3</small>
            </label>
            <input
              id="harmInsensate"
              name="harmInsensate"
              type="number"
              min={1}
              max={20}
              step="0.5"
              value={value.harmInsensate}
            />
            <small>
              So there a chance of {Math.round(acceptedChance(value.harmInsensate, value) * 100)} % is
              accepted.
            </small>
          </p>
        </div>
        <details open={Object.keys(value.eligibleAfterMonths).length > 0}>
          <summary>Months before the funder pays for the next device of a side</summary>
          <p class="hint">
            By family; empty is no rule. A cast is planned no earlier, and a need that comes sooner says so on
            the list. A child outgrown before that day needs the funder's exception, not a wait.
          </p>
          <div class="row">
            {families.map((family) => (
              <p class="field" key={family}>
                <label for={`months-${family}`}>{familyLabel(family)}</label>
                <input
                  id={`months-${family}`}
                  name={`months-${family}`}
                  type="number"
                  class="short"
                  min={0}
                  max={60}
                  value={value.eligibleAfterMonths[family] || ''}
                />
              </p>
            ))}
          </div>
        </details>
        <button type="submit" class="main-action">
          Save settings
        </button>
      </form>
      <LanguagesSection context={context} languages={props.languages} />
      <BackupSection context={context} askPassword={props.askPassword} />
    </Layout>
  );
}
