import { answerLabel } from '../../exchange/headings/meaning-label.js';
import type { SheetAnswer } from '../../store/contract.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

/** Every answer the clinic gave about its sheets: to be seen, changed and forgotten. */
export function SheetAnswersPage(props: {
  context: PageContext;
  answers: readonly SheetAnswer[];
  error: string;
}) {
  const { context, answers, error } = props;
  const sheets = [...new Set(answers.map((a) => a.sheet))];
  return (
    <Layout title="How sheets are read" context={context}>
      <h1>How this clinic's sheets are read</h1>
      {error && (
        <p class="error" role="alert">
          {error}
        </p>
      )}
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
                    {a.asks} <strong>{answerLabel(a.answer)}</strong>{' '}
                    <span class="muted">
                      {a.updatedBy}, {context.format.date(a.updatedAt.slice(0, 10))}
                    </span>
                  </p>
                  <form method="post" action="/import/readings" class="row">
                    <Csrf context={context} />
                    <input type="hidden" name="sheet" value={a.sheet} />
                    <input type="hidden" name="question" value={a.question} />
                    <p class="field">
                      <label for={`answer-${a.sheet}-${a.question}`}>Answer</label>
                      <input
                        id={`answer-${a.sheet}-${a.question}`}
                        name="answer"
                        value={a.answer}
                        maxLength={200}
                        required
                      />
                    </p>
                    <button type="submit" name="do" value="change">
                      Change
                    </button>
                    <button type="submit" name="do" value="forget">
                      Forget
                    </button>
                  </form>
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </Layout>
  );
}
