import { caseloadTables, diffCaseload } from '../exchange/diff-caseload.js';
import type { NamedFile, ParseOptions } from '../exchange/parse-caseload.js';
import { refusedRowText } from '../exchange/refused-row.js';
import type { Actor, Store } from '../store/contract.js';
import type { UploadReader } from './uploads/upload-reader.js';

/** What an import would do, in numbers and words. */
export interface ImportPlan {
  readonly tables: { table: string; added: number; changed: number; unchanged: number }[];
  /** The first refused rows: row, column, what was given, why, what is accepted. */
  readonly refused: string[];
  readonly refusedCount: number;
  readonly notices: readonly string[];
}

/** The dry run of an import: read, compared with what is kept, and kept itself until it is carried out; nothing else is written. */
export async function planImport(
  store: Store,
  uploads: UploadReader,
  files: readonly NamedFile[],
  options: ParseOptions,
  refusedShown: number,
  actor: Actor,
): Promise<{ id: string; plan: ImportPlan }> {
  const parsed = await uploads.read(files, options);
  const diff = diffCaseload(await store.caseload.all(), parsed.caseload);
  const plan = {
    tables: caseloadTables.map((table) => ({
      table,
      added: diff[table].added.length,
      changed: diff[table].changed.length,
      unchanged: diff[table].unchanged,
    })),
    refused: parsed.refused.slice(0, refusedShown).map(refusedRowText),
    refusedCount: parsed.refused.length,
    notices: [
      ...parsed.notices,
      ...parsed.questions.map(
        (q) =>
          `Not taken until the clinic says (${q.cells} cells, such as ${q.examples.slice(0, 2).join('; ')}): ${q.asks}`,
      ),
    ],
  };
  return { id: await store.imports.create(plan, parsed.caseload, actor), plan };
}
