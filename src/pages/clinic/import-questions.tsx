import { meaningNamed } from '../../exchange/headings/meaning.js';
import { meaningLabel } from '../../exchange/headings/meaning-label.js';
import { fieldIds } from '../../exchange/headings/vocabulary.js';
import type { Question } from '../../exchange/sheets/questions.js';
import type { ColumnShown } from '../../exchange/sheets/to-tables.js';
import { measureIds, measures } from '../../records/measure.js';
import type { ImportPlan } from '../../service/import-plan.js';

/** The name of the form's field for a question or column of a dry run, by its place in the plan. */
export const fieldOf = (kind: 'column' | 'question', at: number): string => `${kind}-${at}`;

/** Everything a column can hold, as answers. */
const MEANINGS: readonly string[] = [
  'keep',
  'remark',
  'remark skin',
  ...fieldIds.filter((id) => !/^long\.(id|technical_error|entered)$/.test(id)),
  ...measureIds.flatMap((id) => (measures[id].sided ? [`${id} left`, `${id} right`, `${id} row`] : [id])),
];
const labelOf = (answer: string): string => {
  const meaning = meaningNamed(answer);
  return meaning === null ? answer : meaningLabel(meaning);
};

/** The first filled cells of each column, and what it was taken for, to be confirmed or changed. */
export function SheetColumns(props: { plan: ImportPlan; file: string }) {
  const { plan, file } = props;
  const columns = plan.columns
    .map((column, at) => ({ column, at }))
    .filter(({ column }) => column.file === file);
  return (
    <section>
      <h2>{file}</h2>
      <table class="stacked">
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col">First entries</th>
            <th scope="col">Taken for</th>
          </tr>
        </thead>
        <tbody>
          {columns.map(({ column, at }) => (
            <tr key={at}>
              <th scope="row">{column.heading}</th>
              <td>{column.examples.slice(0, 3).join(' · ')}</td>
              <td>
                <ColumnChoice column={column} at={at} question={questionFor(plan, column)} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const questionFor = (plan: ImportPlan, column: ColumnShown): Question | undefined =>
  plan.questions.find((q) => q.id === column.question && q.sheet === column.sheet);

function ColumnChoice(props: { column: ColumnShown; at: number; question: Question | undefined }) {
  const { column, at, question } = props;
  const likely = question?.choices.map((c) => c.answer) ?? [];
  const current = column.meaning || question?.suggested || '';
  const all = [...new Set([...(current === '' ? [] : [current]), ...likely, ...MEANINGS])];
  return (
    <p class="field">
      <select name={fieldOf('column', at)} aria-label={`What ${column.heading} holds`}>
        {current === '' && <option value="">choose, or leave it out</option>}
        {all.map((answer) => (
          <option key={answer} value={answer} selected={answer === current}>
            {labelOf(answer)}
          </option>
        ))}
      </select>
      {question && (
        <strong>{question.suggested === null ? ' Please choose' : ' Likely: please confirm'}</strong>
      )}
    </p>
  );
}

/** Questions about words, dates and units: one an item, the likely answer chosen. */
export function OtherQuestions(props: { plan: ImportPlan }) {
  const shown = new Set(props.plan.columns.map((c) => `${c.sheet} ${c.question}`));
  const questions = props.plan.questions
    .map((question, at) => ({ question, at }))
    .filter(({ question: q }) => !shown.has(`${q.sheet} ${q.id}`));
  if (questions.length === 0) return null;
  return (
    <section>
      <h2>Questions only the clinic can answer</h2>
      {questions.map(({ question, at }) => (
        <p class="field" key={at}>
          <label for={fieldOf('question', at)}>
            {question.asks} <span class="muted">Such as {question.examples.slice(0, 3).join(' · ')}</span>
          </label>
          {question.choices.length === 0 ? (
            <input id={fieldOf('question', at)} name={fieldOf('question', at)} type="date" />
          ) : (
            <select id={fieldOf('question', at)} name={fieldOf('question', at)}>
              <option value="">not now: leave these out</option>
              {question.choices.map(({ answer, label }) => (
                <option key={answer} value={answer} selected={answer === question.suggested}>
                  {label}
                </option>
              ))}
            </select>
          )}
        </p>
      ))}
    </section>
  );
}
