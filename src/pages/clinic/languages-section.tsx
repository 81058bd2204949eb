import { fieldLimits } from '../../records/field-limits.js';
import type { ReadLanguage } from '../../service/native-readers.js';
import { signer } from '../../service/sign-offs.js';
import { InputField, SelectField } from '../parts/fields.js';
import { Form } from '../parts/form.js';
import { usePage } from '../parts/page-context.js';

/** Which languages of the family's page a native reader has found right; the others say on the page that nobody has. */
export function LanguagesSection(props: { languages: readonly ReadLanguage[] }) {
  const { format } = usePage();
  const { languages } = props;
  const unsigned = languages.filter((l) => !l.signed);
  return (
    <section aria-labelledby="languages">
      <h2 id="languages">Languages of the family's page</h2>
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
    </section>
  );
}
