import { Layout } from '../parts/layout.js';
import { helpTexts, type Reader, readers } from './help-words.js';

export function HelpPage({ reader }: { reader: Reader }) {
  const { title, steps, picture } = helpTexts[reader];
  return (
    <Layout title={title}>
      <h1>{title}</h1>
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
