import { deviceDays } from '../../exchange/headings/meaning.js';
import { answerLabel } from '../../exchange/headings/meaning-label.js';
import { fieldIds } from '../../exchange/headings/vocabulary.js';
import type { Question } from '../../exchange/sheets/questions.js';
import type { ColumnShown } from '../../exchange/sheets/to-tables.js';
import { counted } from '../../records/counted.js';
import { type MeasureId, measureIds, measures } from '../../records/measure.js';
import type { ImportPlan } from '../../service/import-plan.js';
import { Table } from '../parts/table.js';

/** The name of the form's field for a question or column of a dry run, by its place in the plan. */
export const fieldOf = (kind: 'column' | 'question', at: number): string => `${kind}-${at}`;

const sizesOf = (id: MeasureId): string[] =>
  measures[id].sided ? [`${id} left`, `${id} right`, `${id} row`] : [id];

/** Everything a column can hold, as answers. */
const MEANINGS: readonly string[] = [
  'keep',
  'remark',
  'remark skin',
  ...fieldIds.filter((id) => !/^long\.(id|technical_error|entered)$/.test(id)),
  ...measureIds.flatMap(sizesOf),
];

/** Sizes of the cast's or the fitting's day, of the measures the sheet has: of every measure they would be a page of their own. */
function onDeviceDays(answers: readonly string[]): string[] {
  const named = new Set(answers.map((answer) => answer.split(' ')[0]));
  const measured = measureIds.filter((id) => named.has(id));
  return Object.keys(deviceDays).flatMap((day) =>
    measured.flatMap((id) => sizesOf(id).map((size) => `${size} at:${day}`)),
  );
}

/** The choices of what a column holds, the current answer chosen. */
export function MeaningOptions(props: {
  current: string;
  likely: readonly string[];
  sheet: readonly string[];
}) {
  const { current, likely, sheet } = props;
  const first = [...new Set([...(current === '' ? [] : [current]), ...likely])];
  const rest = (answers: readonly string[]) => answers.filter((answer) => !first.includes(answer));
  const option = (answer: string) => (
    <option key={answer} value={answer} selected={answer === current}>
      {answerLabel(answer)}
    </option>
  );
  return (
    <>
      {first.map(option)}
      <optgroup label="Anything else">{rest(MEANINGS).map(option)}</optgroup>
      <optgroup label="Taken on the day of the cast or the fitting">
        {rest(onDeviceDays([...first, ...sheet])).map(option)}
      </optgroup>
    </>
  );
}

interface Shown {
  readonly column: ColumnShown;
  readonly at: number;
}

/** Each column of a sheet with what it was taken for: first those that wait for an answer, then those that were sure. */
export function SheetColumns(props: { plan: ImportPlan; file: string }) {
  const { plan, file } = props;
  const columns = plan.columns
    .map((column, at) => ({ column, at }))
    .filter(({ column }) => column.file === file);
  const asked = columns.filter(({ column }) => questionFor(plan, column) !== undefined);
  const sure = columns.filter((shown) => !asked.includes(shown));
  const table = (rows: readonly Shown[]) => (
    <Table
      class="stacked"
      rows={rows}
      columns={[
        ['Column', ({ column }) => column.heading],
        ['First entries', ({ column }) => column.examples.slice(0, 3).join(' · ')],
        [
          'Taken for',
          ({ column, at }) => (
            <ColumnChoice
              column={column}
              at={at}
              question={questionFor(plan, column)}
              sheet={columns.map((c) => c.column.meaning)}
            />
          ),
        ],
      ]}
    />
  );
  return (
    <section>
      <h2>{file}</h2>
      {asked.length > 0 && table(asked)}
      {sure.length > 0 && (
        <details open>
          <summary>{counted(sure.length, 'column')} read without a question</summary>
          {table(sure)}
        </details>
      )}
    </section>
  );
}

const questionFor = (plan: ImportPlan, column: ColumnShown): Question | undefined =>
  plan.questions.find((q) => q.id === column.question && q.sheet === column.sheet);

function ColumnChoice(props: {
  column: ColumnShown;
  at: number;
  question: Question | undefined;
  sheet: readonly string[];
}) {
  const { column, at, question, sheet } = props;
  const likely = question?.choices.map((c) => c.answer) ?? [];
  const current = column.meaning || question?.suggested || '';
  return (
    <p class="field">
      <select name={fieldOf('column', at)} aria-label={`What ${column.heading} holds`}>
        {current === '' && <option value="">choose, or leave it out</option>}
        <MeaningOptions current={current} likely={likely} sheet={sheet} />
      </select>
      {question && (
        <strong>{question.suggested === null ? ' Please choose' : ' Likely: please confirm'}</strong>
      )}
      {!question && column.certainty === 'likely' && <strong> As it reads: look whether it is right</strong>}
    </p>
  );
}

/** The nearest answers stand first; a few more are read at a glance. */
const FIRST = 5;
const optionOf = ({ suggested }: Question, { answer, label }: Question['choices'][number]) => (
  <option key={answer} value={answer} selected={answer === suggested}>
    {label}
  </option>
);

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
              {question.choices.slice(0, FIRST).map((choice) => optionOf(question, choice))}
              {question.choices.length > FIRST && (
                <optgroup label="Anything else">
                  {question.choices.slice(FIRST).map((choice) => optionOf(question, choice))}
                </optgroup>
              )}
            </select>
          )}
        </p>
      ))}
    </section>
  );
}
