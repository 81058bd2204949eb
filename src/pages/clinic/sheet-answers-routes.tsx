import type { FastifyInstance, FastifyReply } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { meaningNamed } from '../../exchange/headings/meaning.js';
import { answerChoices } from '../../exchange/sheets/answer-choices.js';
import { isIsoDate } from '../../records/dates.js';
import { recordKeepers } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { pagesOf } from '../parts/pages-of.js';
import { SheetAnswersPage } from './sheet-answers-page.js';

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
