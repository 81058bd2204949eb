import { answerChoices, answerInWords } from '../../exchange/sheets/answer-choices.js';
import type { SheetAnswer } from '../../store/contract.js';
import { Form, Options, Problem, Submit } from '../parts/form.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { MeaningOptions } from './import-questions.js';

/** Every answer the clinic gave about its sheets: to be seen, changed and forgotten. */
export function SheetAnswersPage(props: {
  answers: readonly SheetAnswer[];
  familyNames: ReadonlyMap<string, string>;
  error: string;
}) {
  const { answers, familyNames, error } = props;
  const sheets = [...new Set(answers.map((a) => a.sheet))];
  return (
    <Layout title="How sheets are read">
      <h1>How this clinic's sheets are read</h1>
      <Problem error={error} />
      <p>
        What the clinic answered when a sheet was imported. It is used without asking for the next sheet with
        the same headings. What is forgotten is asked again.
      </p>
      {answers.length === 0 && <Empty>Nothing was asked yet.</Empty>}
      {sheets.map((sheet) => {
        const own = answers.filter((a) => a.sheet === sheet);
        return (
          <section key={sheet}>
            <h2>{sheet === '' ? 'Words, in every sheet' : `Sheets with: ${own[0].headings}`}</h2>
            <ul>
              {own.map((a) => (
                <li key={a.question}>
                  <p>
                    {a.asks} <strong>{answerInWords(a.question, a.answer, familyNames)}</strong>{' '}
                    <span class="muted">
                      {a.updatedBy}, {usePage().format.day(a.updatedAt)}
                    </span>
                  </p>
                  <Form
                    action="/import/readings"
                    class="row"
                    hidden={{ sheet: a.sheet, question: a.question }}
                  >
                    <p class="field">
                      <label for={`answer-${a.sheet}-${a.question}`}>Answer</label>
                      <Answer kept={a} familyNames={familyNames} sheet={own.map(({ answer }) => answer)} />
                    </p>
                    <Submit name="do" value="change">
                      Change
                    </Submit>
                    <Submit name="do" value="forget">
                      Forget
                    </Submit>
                  </Form>
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </Layout>
  );
}

/** The answers there are to a question, the kept one chosen; a day where it asks for one. */
function Answer(props: {
  kept: SheetAnswer;
  familyNames: ReadonlyMap<string, string>;
  sheet: readonly string[];
}) {
  const { kept, familyNames, sheet } = props;
  const { question, answer } = kept;
  const id = `answer-${kept.sheet}-${question}`;
  const choices = answerChoices(question, familyNames);
  if (question.startsWith('column:'))
    return (
      <select id={id} name="answer">
        <MeaningOptions current={answer} likely={[]} sheet={sheet} />
      </select>
    );
  if (choices.length === 0) return <input id={id} name="answer" type="date" value={answer} required />;
  return (
    <select id={id} name="answer">
      <Options of={choices.map((choice) => [choice.answer, choice.label] as const)} chosen={answer} />
    </select>
  );
}
