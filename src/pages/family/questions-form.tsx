import { capital } from '../../forecast/words.js';
import { toeRooms } from '../../records/family-answer.js';
import { fieldLimits } from '../../records/field-limits.js';
import { skinCheckFields, skinStates } from '../../records/skin-check.js';
import type { Region } from '../../rules/fit-rule.js';
import type { FamilyWords, WornDevice } from '../../words/family/family-words.js';
import { Contact } from '../parts/contact.js';
import { Form, InputField, Problem, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import type { Fields } from '../parts/pages-of.js';

const TOES: readonly Region[] = ['foot', 'shoe', 'boots', 'ankle-foot', 'long-leg'];
/** Whether the device has an end that toes can reach, and is worn in a shoe. */
export const hasToes = (region: Region): boolean => TOES.includes(region);

/** The two questions the clinic asked, to be answered without script. */
export function QuestionsForm(props: {
  words: FamilyWords;
  region: Region;
  device: string;
  questionId: string;
  action: string;
  typed: Fields;
  incomplete: boolean;
}) {
  const { words, region, typed } = props;
  const { questions: q } = words;
  const choice = (name: string, options: readonly (readonly [string, string])[]) => (
    <div class="choices">
      {options.map(([value, label]) => (
        <label key={value}>
          <input type="radio" name={name} value={value} required checked={typed[name] === value} /> {label}
        </label>
      ))}
    </div>
  );
  return (
    <Form action={props.action} class="card questions no-print" id="questions">
      <h2>{q.title}</h2>
      <p>
        {capital(props.device)}. {q.hint}
      </p>
      <Problem error={props.incomplete ? q.incomplete : ''} />

      <input type="hidden" name="question" value={props.questionId} />
      <input type="hidden" name="language" value={words.language} />
      {hasToes(region) && (
        <fieldset>
          <legend>{q.toes}</legend>
          {choice(
            'toes',
            toeRooms.map((v) => [v, q.toesAnswers[v]] as const),
          )}
        </fieldset>
      )}
      <fieldset>
        <legend>{region === 'hip' ? q.marksHip : q.marks}</legend>
        {choice(
          'marks',
          skinStates.map((v) => [v, q.marksAnswers[v]] as const),
        )}
      </fieldset>
      <InputField
        label={q.where}
        name="place"
        {...fieldLimits(skinCheckFields.shape.where)}
        value={typed.place ?? ''}
      />
      <InputField
        label={q.minutes}
        name="minutes"
        type="number"
        {...fieldLimits(skinCheckFields.shape.minutes)}
        value={typed.minutes ?? ''}
        class="short"
      />
      <Submit main>{q.send}</Submit>
    </Form>
  );
}

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
