import { tables } from '../../service/api/exports-routes.js';
import { PasswordAgain } from '../parts/fields.js';
import { Form } from '../parts/form.js';
import { Go } from '../parts/paths.js';

/** Everything that is kept, as one file to take away, and how it comes back. */
export function BackupSection({ askPassword }: { askPassword: boolean }) {
  return (
    <section aria-labelledby="backup">
      <h2 id="backup">Backup</h2>
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
        {tables.map((table) => (
          <a key={table} href={`/api/exports/tables/${table}`}>
            {table}.csv
          </a>
        ))}
      </p>
      <p class="hint">Diagnoses are in them, but for research small groups are merged and dates shifted.</p>
    </section>
  );
}
