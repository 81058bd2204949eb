import { writeCaseload } from '../exchange/csv/write-caseload.js';
import { diffCaseload } from '../exchange/diff-caseload.js';
import { readCaseload } from '../exchange/read-caseload.js';
import { caseloadParts } from '../records/caseload.js';
import { exitCodes } from './exit-codes.js';
import { countsText, parseOptions, printRefused, type ReadingOptions, readPaths } from './reading-options.js';
import { terminal, textTable } from './terminal.js';

/** `doorpost import`: a dry run over files; with --out the clean tables are written, all or none. */
export async function importFiles(
  paths: readonly string[],
  options: ReadingOptions & { out?: string; against?: string },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const { caseload, refused, notices, questions, columns, doubtful } = parsed;
  const before = options.against ? await readCaseload([options.against], parseOptions(options)) : null;
  const diff = before === null ? null : diffCaseload(before.caseload, caseload);
  const written = options.out ? await writeCaseload(options.out, caseload) : [];
  const code = refused.length > 0 ? exitCodes.rowsRefused : exitCodes.done;
  if (options.json) {
    const taken = Object.fromEntries(caseloadParts.map((table) => [table, caseload[table].length]));
    terminal.out(
      JSON.stringify({ taken, refused, notices, questions, columns, doubtful, diff, written }, null, 2),
    );
    return code;
  }
  terminal.out(`Taken: ${countsText({ ...caseload })}.`);
  if (diff !== null) printDiff(diff);
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

/** What differs from the tables before, with the first changes of each. */
function printDiff(diff: ReturnType<typeof diffCaseload>): void {
  const rows = caseloadParts.map((table) => {
    const { added, changed, unchanged, untouched } = diff[table];
    return [table, ...[added.length, changed.length, unchanged, untouched].map(String)];
  });
  terminal.out(`\n${textTable(['', 'added', 'changed', 'unchanged', 'only before'], rows)}`);
  for (const table of caseloadParts)
    for (const { id, fields } of diff[table].changed.slice(0, 10))
      terminal.out(`  ${table} ${id}: ${fields.join(', ')} changed`);
}
