import type { FamilyWords, WornDevice } from '../../words/family/family-words.js';
import { Contact } from '../parts/contact.js';
import { Layout } from '../parts/layout.js';

/** What a family reads after it answered: marks that last lead straight to stopping and ringing. */
export function AnsweredPage(props: {
  words: FamilyWords;
  worn: WornDevice;
  stop: boolean;
  contact: string;
  back: string;
}) {
  const { words, worn, stop, contact } = props;
  return (
    <Layout
      title={words.questions.title}
      kind="sheet"
      styles={['family.css']}
      language={words.language}
      direction={words.direction}
    >
      {stop && (
        <div class="card stop" role="alert">
          <h1>{words.wanted('see-now', worn, 'skin')}</h1>
          <p>
            {words.callUs} <strong>{contact ? <Contact text={contact} /> : words.numberOnCard}</strong>
          </p>
        </div>
      )}
      {stop ? <p>{words.questions.thanks}</p> : <h1>{words.questions.thanks}</h1>}
      {!stop && <p>{words.questions.hint}</p>}
      <p>
        <a href={props.back}>{words.title('')}</a>
      </p>
    </Layout>
  );
}
