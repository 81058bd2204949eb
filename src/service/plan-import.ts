import { DoorpostError } from '../errors.js';
import { caseloadTables, diffCaseload } from '../exchange/diff-caseload.js';
import { foldText } from '../exchange/headings/fold-words.js';
import { meaningNamed } from '../exchange/headings/meaning.js';
import type { NamedFile, ParseOptions } from '../exchange/parse-caseload.js';
import { refusedRowText } from '../exchange/refused-row.js';
import type { Answers, Question } from '../exchange/sheets/questions.js';
import type { ColumnShown } from '../exchange/sheets/to-tables.js';
import type { Caseload } from '../records/caseload.js';
import type { Actor, SheetAnswer, Store } from '../store/contract.js';
import type { UploadReader } from './uploads/upload-reader.js';

/** What an import would do, in numbers and words. */
export interface ImportPlan {
  readonly tables: { table: string; added: number; changed: number; unchanged: number }[];
  /** The first refused rows: row, column, what was given, why, what is accepted. */
  readonly refused: string[];
  readonly refusedCount: number;
  /** Readings written with a doubt, which count for less. */
  readonly doubtful: string[];
  readonly doubtfulCount: number;
  readonly notices: readonly string[];
  /** What only the clinic can say; what waits for it is not taken. */
  readonly questions: readonly Question[];
  /** What each column of the clinic's own sheets was taken for. */
  readonly columns: readonly ColumnShown[];
}

export type ImportOptions = Pick<ParseOptions, 'today' | 'dateOrder' | 'lengthUnit'>;

interface Reading {
  readonly store: Store;
  readonly uploads: UploadReader;
  readonly refusedShown: number;
}

/** The dry run of an import: read, compared with what is kept, and kept itself until it is carried out; nothing else is written. */
export async function planImport(
  reading: Reading,
  files: readonly NamedFile[],
  options: ImportOptions,
  actor: Actor,
): Promise<{ id: string; plan: ImportPlan }> {
  const { plan, caseload } = await readAgainst(reading, files, options);
  return { id: await reading.store.imports.create({ plan, caseload, files, options }, actor), plan };
}

/** Keeps what the clinic answered and reads the files of a dry run again with it. */
export async function answerImport(
  reading: Reading,
  id: string,
  answers: readonly { readonly sheet: string; readonly question: string; readonly answer: string }[],
  actor: Actor,
): Promise<ImportPlan> {
  const { store } = reading;
  const { files, options, status, plan: before } = await store.imports.get(id);
  if (status !== 'checked' || files === null)
    throw new DoorpostError(
      'already-there',
      'This import was taken in already, or its files are no longer kept',
      {
        accepted: 'a new dry run',
      },
    );
  const asked = before as ImportPlan;
  await store.sheetAnswers.keep(
    answers.map((given) => keptAnswer(asked, given)),
    actor,
  );
  const { plan, caseload } = await readAgainst(reading, files, options as ImportOptions);
  await store.imports.again(id, { plan, caseload }, actor);
  return plan;
}

async function readAgainst(
  { store, uploads, refusedShown }: Reading,
  files: readonly NamedFile[],
  options: ImportOptions,
): Promise<{ plan: ImportPlan; caseload: Caseload }> {
  const parsed = await uploads.read(files, { ...options, answers: await clinicAnswers(store) });
  const kept = await store.caseload.all();
  const diff = diffCaseload(kept, parsed.caseload);
  const plan = {
    tables: caseloadTables.map((table) => ({
      table,
      added: diff[table].added.length,
      changed: diff[table].changed.length,
      unchanged: diff[table].unchanged,
    })),
    refused: parsed.refused.slice(0, refusedShown).map(refusedRowText),
    refusedCount: parsed.refused.length,
    doubtful: parsed.doubtful
      .slice(0, refusedShown)
      .map(({ file, row, column, given }) => `${file} row ${row}, ${column} "${given}"`),
    doubtfulCount: parsed.doubtful.length,
    notices: [...twins(kept, parsed.caseload), ...parsed.notices],
    questions: parsed.questions,
    columns: parsed.columns,
  };
  return { plan, caseload: parsed.caseload };
}

/** Children who are kept already under another number: taking them in would make them twice. */
function twins(kept: Caseload, given: Caseload): string[] {
  const key = (c: Caseload['children'][number]) =>
    `${foldText(c.name).split(' ').sort().join(' ')}/${c.birthDate}`;
  const ids = new Set(kept.children.map((c) => c.id));
  const byName = new Map(kept.children.filter((c) => c.name !== '').map((c) => [key(c), c.id]));
  return given.children
    .filter((c) => c.name !== '' && !ids.has(c.id) && byName.has(key(c)))
    .map(
      (c) =>
        `${c.name}, born ${c.birthDate}, is kept already as ${byName.get(key(c))}: give the sheet a column with these numbers, or the child stands here twice.`,
    );
}

/** The clinic's answers by question, for one sheet or for every one. */
async function clinicAnswers(store: Store): Promise<Answers> {
  const kept = await store.sheetAnswers.list();
  return Object.fromEntries(
    kept.map(({ sheet, question, answer }) => [sheet === '' ? question : `${sheet} ${question}`, answer]),
  );
}

/** An answer with what was asked; only what the dry run asked or showed can be answered. */
function keptAnswer(
  plan: ImportPlan,
  { sheet, question, answer }: { readonly sheet: string; readonly question: string; readonly answer: string },
): Omit<SheetAnswer, 'updatedBy' | 'updatedAt'> {
  const asked = plan.questions.find((q) => q.id === question && q.sheet === sheet);
  const column = plan.columns.find((c) => c.question === question && c.sheet === sheet);
  if (!asked && !column)
    throw new DoorpostError('invalid-value', 'This was not asked by the dry run', {
      field: 'question',
      given: question,
      accepted: [...plan.questions.map((q) => q.id), ...plan.columns.map((c) => c.question)]
        .slice(0, 10)
        .join(', '),
    });
  const choices = asked?.choices ?? [];
  if (!question.startsWith('column:') && choices.length > 0 && !choices.some((c) => c.answer === answer))
    throw new DoorpostError('invalid-value', `'${answer}' is no answer to this question`, {
      field: 'answer',
      given: answer,
      accepted: choices.map((c) => c.answer).join(', '),
    });
  if (question.startsWith('column:') && meaningNamed(answer) === null)
    throw new DoorpostError('invalid-value', `A column cannot hold '${answer}'`, {
      field: 'answer',
      given: answer,
      accepted: 'keep, a field such as child.birth_date, or a measure such as foot_length left cm',
    });
  return {
    sheet,
    question,
    answer,
    asks: asked?.asks ?? `What the column "${column?.heading}" holds`,
    headings: plan.columns
      .filter((c) => c.sheet === sheet)
      .map((c) => c.heading)
      .join(', ')
      .slice(0, 500),
  };
}
