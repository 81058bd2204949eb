import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { everyone } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { Layout } from '../parts/layout.js';
import { pagesOf } from '../parts/pages-of.js';
import { helpTexts, type Reader, readers } from './help-words.js';

/** Help of one screen for each kind of reader; every page's Help leads to that of who is signed in. */
export function registerHelpPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { get } = pagesOf(app, deps);
  get('/help', everyone, async ({ request, reply }) =>
    reply.redirect(`/help/${request.user?.role ?? 'clinician'}`, 303),
  );
  get('/help/:reader', everyone, async ({ params }) => {
    const reader = readers.find((r) => r === params.reader);
    if (!reader) throw new DoorpostError('not-found', 'There is no such page of help');
    return <HelpPage reader={reader} />;
  });
}

function HelpPage({ reader }: { reader: Reader }) {
  const { title, steps, picture } = helpTexts[reader];
  return (
    <Layout titled title={title}>
      <ol class="help">
        {steps.map(({ task, how }) => (
          <li key={task}>
            <strong>{task}.</strong> {how}
          </li>
        ))}
      </ol>
      {picture && (
        <figure class="help">
          <img src={`/assets/tour/${picture.file}`} alt={picture.shows} loading="lazy" width="600" />
          <figcaption>{picture.shows}. Everybody in the picture is invented.</figcaption>
        </figure>
      )}
      <nav aria-label="Other help">
        {readers
          .filter((other) => other !== reader)
          .map((other, i) => (
            <>
              {i > 0 && ' · '}
              <a key={other} href={`/help/${other}`}>
                {helpTexts[other].title}
              </a>
            </>
          ))}
      </nav>
    </Layout>
  );
}
