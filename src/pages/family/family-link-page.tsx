import type { NewFamilyLink } from '../../store/contract.js';
import { CopyField } from '../parts/copy-field.js';
import { Layout } from '../parts/layout.js';
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
