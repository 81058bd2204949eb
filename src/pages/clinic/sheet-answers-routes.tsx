import type { FastifyInstance, FastifyReply } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { meaningNamed } from '../../exchange/headings/meaning.js';
import { answerChoices, answerInWords } from '../../exchange/sheets/answer-choices.js';
import { isIsoDate } from '../../records/dates.js';
import { recordKeepers } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { SheetAnswer } from '../../store/contract.js';
import { Form, Options, Problem, Submit } from '../parts/form.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { pagesOf } from '../parts/pages-of.js';
import { MeaningOptions } from './import-questions.js';

/** How this clinic's sheets are read: every kept answer, to be changed or forgotten. */
export function registerSheetAnswerPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post } = pagesOf(app, deps);
  const familyNames = async () => {
    const { rules } = (await deps.assessor.current()).context;
    return new Map([...rules].map(([family, rule]) => [family, rule.names.en.clinical]));
  };

  const show = async (reply: FastifyReply, error: string, status?: number) =>
    reply.page(
      <SheetAnswersPage
        answers={await store.sheetAnswers.list()}
        familyNames={await familyNames()}
        error={error}
      />,
      status,
    );

  get('/import/readings', recordKeepers, ({ reply }) => show(reply, ''));

  post('/import/readings', recordKeepers, async ({ reply, body, actor }) => {
    const { sheet = '', question = '', answer = '', do: what } = body;
    const kept = (await store.sheetAnswers.list()).find((a) => a.sheet === sheet && a.question === question);
    if (!kept) throw new DoorpostError('not-found', 'This answer is not kept any more');
    if (what === 'change' && !canAnswer(question, answer, await familyNames())) {
      const error = `"${answer.slice(0, 60)}" is no answer to this question: choose one of those offered.`;
      return show(reply, error, 422);
    }
    if (what === 'forget') await store.sheetAnswers.remove(sheet, question, actor);
    else await store.sheetAnswers.save([{ ...kept, answer: answer.trim().slice(0, 200) }], actor);
    return reply.redirect('/import/readings?notice=reading-saved', 303);
  });
}

/** Whether an answer is one that can be given: what a column can hold, one of the choices, or a day. */
function canAnswer(question: string, answer: string, names: ReadonlyMap<string, string>): boolean {
  if (question.startsWith('column:')) return meaningNamed(answer) !== null;
  const choices = answerChoices(question, names);
  return choices.length > 0 ? choices.some((c) => c.answer === answer) : isIsoDate(answer);
}

/** Every answer the clinic gave about its sheets: to be seen, changed and forgotten. */
function SheetAnswersPage(props: {
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
