import { writeCaseload } from '../exchange/csv/write-caseload.js';
import { caseloadParts } from '../records/caseload.js';
import { exitCodes } from './exit-codes.js';
import { countsText, printRefused, type ReadingOptions, readPaths } from './reading-options.js';
import { terminal } from './terminal.js';

/** `doorpost import`: a dry run over files; with --out the clean tables are written, all or none. */
export async function importFiles(
  paths: readonly string[],
  options: ReadingOptions & { out?: string },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const { caseload, refused, notices, questions, columns, doubtful } = parsed;
  const written = options.out ? await writeCaseload(options.out, caseload) : [];
  const code = refused.length > 0 ? exitCodes.rowsRefused : exitCodes.done;
  if (options.json) {
    const taken = Object.fromEntries(caseloadParts.map((table) => [table, caseload[table].length]));
    terminal.out(JSON.stringify({ taken, refused, notices, questions, columns, doubtful, written }, null, 2));
    return code;
  }
  terminal.out(`Taken: ${countsText({ ...caseload })}.`);
  if (doubtful.length > 0)
    terminal.out(
      doubtful.length === 1
        ? `1 reading was written with a doubt ("${doubtful[0].given}") and counts for less.`
        : `${doubtful.length} readings were written with a doubt (such as "${doubtful[0].given}") and count for less.`,
    );
  printRefused({ refused, notices, questions }, terminal.out);
  if (options.out) terminal.out(`\nWritten: ${options.out} (${written.length} tables).`);
  else terminal.out('\nNothing was changed. --out FOLDER writes what was taken as clean tables.');
  return code;
}
