import { nameKey } from '../exchange/sheets/people.js';
import type { Question } from '../exchange/sheets/questions.js';
import type { ColumnShown } from '../exchange/sheets/to-tables.js';
import type { ImportCounts, Namesake } from '../store/contract.js';

/** What was read, in words. */
export interface SaidOfUpload {
  /** The first refused rows: row, column, what was given, why, what is accepted. */
  readonly refused: readonly string[];
  readonly refusedCount: number;
  /** Readings written with a doubt, which count for less. */
  readonly doubtful: readonly string[];
  readonly doubtfulCount: number;
  readonly notices: readonly string[];
  /** What only the clinic can say; what waits for it is not taken. */
  readonly questions: readonly Question[];
  /** What each column of the clinic's own sheets was taken for. */
  readonly columns: readonly ColumnShown[];
}

/** What an import would do, in numbers and words. */
export interface ImportPlan extends SaidOfUpload {
  readonly tables: readonly ImportCounts[];
}

/** Children who are kept already under another number are told: taking them in would make them twice. */
export const importPlan =
  (said: SaidOfUpload) =>
  (tables: readonly ImportCounts[], namesakes: readonly Namesake[]): ImportPlan => ({
    tables,
    ...said,
    notices: [...twins(namesakes), ...said.notices],
  });

/** The same words, in whatever order and however they are written. */
export const sameName = (a: string, b: string): boolean => nameKey(a) === nameKey(b);

function twins(namesakes: readonly Namesake[]): string[] {
  const once = new Map(namesakes.map((one) => [`${one.name}/${one.birthDate}`, one]));
  return [...once.values()].map(
    ({ name, birthDate, keptId }) =>
      `${name}, born ${birthDate}, is kept already as ${keptId}: give the sheet a column with these numbers, or the child stands here twice.`,
  );
}
