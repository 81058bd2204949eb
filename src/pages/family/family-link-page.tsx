import type { NewFamilyLink } from '../../store/contract.js';
import { Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

/** The new link, shown this once. */
export function FamilyLinkPage(props: {
  context: PageContext;
  childId: string;
  link: NewFamilyLink;
  url: string;
}) {
  const { context, childId, link, url } = props;
  return (
    <Layout title="Link for the family" context={context}>
      <section>
        <h1>Link for the family</h1>
        <p>
          Copy it now and give it to the family yourself: it is not shown again. It opens this child's sheet
          until {context.format.date(link.expiresAt.slice(0, 10))}, for whoever has it.
        </p>
        <p class="field">
          <label for="url">Link</label>
          <input id="url" readonly value={url} />
        </p>
        <p>
          <a href={`/children/${encodeURIComponent(childId)}`}>Back to the child</a>
        </p>
      </section>
    </Layout>
  );
}
