import { join } from 'node:path';
import { DoorpostError } from '../errors.js';
import { meaningNamed } from '../exchange/headings/meaning.js';
import type { ParseOptions } from '../exchange/parse-caseload.js';
import type { Answers } from '../exchange/sheets/questions.js';
import type { Actor, CheckedImport, SheetAnswer, Store } from '../store/contract.js';
import { type ImportPlan, importPlan, sameName } from './import-plan.js';
import { recordsIn } from './uploads/records-file.js';
import { makeUploadFolder, removeUploadFolder } from './uploads/upload-folder.js';
import type { UploadReader } from './uploads/upload-reader.js';
import type { UploadedFiles } from './uploads/uploaded-files.js';

export type ImportOptions = Pick<ParseOptions, 'today' | 'dateOrder' | 'lengthUnit'>;

interface Reading {
  readonly store: Store;
  readonly uploads: UploadReader;
  readonly refusedShown: number;
}

/** The dry run of an import: read, compared with what is kept, and kept itself until it is carried out; nothing else is written. */
export const planImport = (
  reading: Reading,
  files: UploadedFiles,
  options: ImportOptions,
  actor: Actor,
): Promise<{ id: string; plan: ImportPlan }> =>
  read(reading, files, options, (given) => reading.store.imports.create({ ...given, options }, actor));

/** Keeps what the clinic answered and reads the files of a dry run again with it. */
export async function answerImport(
  reading: Reading,
  id: string,
  answers: readonly { readonly sheet: string; readonly question: string; readonly answer: string }[],
  actor: Actor,
): Promise<ImportPlan> {
  const { store } = reading;
  const { packed, options, plan: asked } = await store.imports.checked(id);
  await store.sheetAnswers.save(
    answers.map((given) => keptAnswer(asked as ImportPlan, given)),
    actor,
  );
  // What was asked about is kept.
  const files = { packed: packed as Uint8Array };
  return read(reading, files, options as ImportOptions, (given) => store.imports.again(id, given, actor));
}

/** What was read goes from the process that reads to the database by a file: neither holds all of it. */
async function read<T>(
  { store, uploads, refusedShown }: Reading,
  files: UploadedFiles,
  options: ImportOptions,
  keep: (given: Omit<CheckedImport<ImportPlan>, 'options'>) => Promise<T>,
): Promise<T> {
  const folder = await makeUploadFolder();
  try {
    const into = join(folder, 'records');
    const answers = await clinicAnswers(store);
    const { said, lists, packed } = await uploads.read({
      files,
      options: { ...options, answers },
      shown: refusedShown,
      into,
    });
    return await keep({ records: recordsIn(into, lists), planOf: importPlan(said), sameName, packed });
  } finally {
    await removeUploadFolder(folder);
  }
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
