import { fieldLimits } from '../../records/field-limits.js';
import { type FamilyLink, type NewFamilyLink, newFamilyLink } from '../../store/contract.js';
import { CopyField } from '../parts/copy-field.js';
import { Form, InputField, Submit } from '../parts/form.js';
import { Layout, Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';

/** The new link, shown this once: to be copied or printed. */
export function FamilyLinkPage(props: { childId: string; link: NewFamilyLink; url: string }) {
  const { format } = usePage();
  const { childId, link, url } = props;
  const until = format.longDate(format.dayOf(link.expiresAt));
  return (
    <Layout title="Link for the family" scripts={['copy.js']}>
      <section>
        <h1>Link for the family</h1>
        <p>
          Give it to the family yourself, now: it is not shown again. Whoever has it sees this child's sheet,
          and can answer your two questions where you have asked them.
        </p>
        <p>
          <strong>It works until {until}</strong>, or until you withdraw it.
        </p>
        <CopyField label="Link" value={url} />
        <p class="no-print">
          <a href={childPath(childId)}>Back to the child</a>
        </p>
      </section>
    </Layout>
  );
}

/** On the child's page: the links there are, each with its end, and a new one. */
export function FamilyLinks({ base, links }: { base: string; links: readonly FamilyLink[] }) {
  const { format } = usePage();
  return (
    <Section id="links" title="Links for the family" class="no-print">
      <p>A link opens this child's sheet and nothing else, until its date or until you withdraw it.</p>
      {links.length > 0 && (
        <ul>
          {links.map((l) => (
            <li key={l.id}>
              <Form action={`${base}/links/withdraw`} class="row" hidden={{ link: l.id }}>
                <span>
                  {l.label || 'Link'}, until {format.day(l.expiresAt)},{' '}
                  {l.lastUsedAt ? `last used ${format.day(l.lastUsedAt)}` : 'not used yet'}
                </span>
                {l.withdrawnAt ? <span class="tag">withdrawn</span> : <Submit>Withdraw</Submit>}
              </Form>
            </li>
          ))}
        </ul>
      )}
      <Form action={`${base}/links`} class="row" send="Make a link">
        <InputField
          label="For whom"
          id="link-label"
          name="label"
          {...fieldLimits(newFamilyLink.shape.label)}
          placeholder="mother, school"
        />
        <InputField
          label="Days it works"
          id="link-days"
          name="days"
          type="number"
          {...fieldLimits(newFamilyLink.shape.days)}
          value="90"
        />
      </Form>
    </Section>
  );
}
