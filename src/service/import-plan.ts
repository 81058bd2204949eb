import { diffCaseload } from '../exchange/diff-caseload.js';
import { foldText } from '../exchange/headings/fold-words.js';
import type { ParsedCaseload } from '../exchange/parse-caseload.js';
import { refusedRowText } from '../exchange/refused-row.js';
import type { Question } from '../exchange/sheets/questions.js';
import type { ColumnShown } from '../exchange/sheets/to-tables.js';
import { type Caseload, caseloadParts } from '../records/caseload.js';

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

/** What was read, compared with what is kept; of the refused and the doubtful the first `shown` are told. */
export function importPlan(kept: Caseload, parsed: ParsedCaseload, shown: number): ImportPlan {
  const diff = diffCaseload(kept, parsed.caseload);
  return {
    tables: caseloadParts.map((table) => ({
      table,
      added: diff[table].added.length,
      changed: diff[table].changed.length,
      unchanged: diff[table].unchanged,
    })),
    refused: parsed.refused.slice(0, shown).map(refusedRowText),
    refusedCount: parsed.refused.length,
    doubtful: parsed.doubtful
      .slice(0, shown)
      .map(({ file, row, column, given }) => `${file} row ${row}, ${column} "${given}"`),
    doubtfulCount: parsed.doubtful.length,
    notices: [...twins(kept, parsed.caseload), ...parsed.notices],
    questions: parsed.questions,
    columns: parsed.columns,
  };
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
