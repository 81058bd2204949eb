import { type Column, columns, patternColumns, tableNames } from '../exchange/csv/columns.js';
import { terminal, wrap } from './terminal.js';

/** `doorpost columns`: what can be read, with what is accepted in each cell. */
export async function listColumns(options: { json?: boolean }): Promise<void> {
  if (options.json) {
    const shown = ({ name, required, accepted, aliases }: Column) => ({ name, required, accepted, aliases });
    const tables = Object.entries(columns).map(([table, own]) => [table, own.map(shown)]);
    terminal.out(JSON.stringify({ columns: Object.fromEntries(tables), patternColumns }, null, 2));
    return;
  }
  terminal.out(
    wrap(
      'One heading line, in any order and case; comma, semicolon or tab; decimal point or comma; UTF-8 or ' +
        'Windows text, or the sheets of an .xlsx file under these names. Columns marked * are needed. Columns not ' +
        'named here are kept and written back.',
    ),
  );
  for (const table of tableNames) {
    terminal.out(`\n${table}.csv`);
    const width = Math.max(...columns[table].map(({ name }) => name.length)) + 2;
    for (const { name, required, accepted, aliases } of columns[table]) {
      const also = aliases.length > 0 ? ` (also headed ${aliases.join(', ')})` : '';
      const text = wrap(accepted + also, 110, ' '.repeat(width + 3)).trimStart();
      terminal.out(`  ${(name + (required ? '*' : '')).padEnd(width)} ${text}`);
    }
    for (const line of patternColumns[table] ?? []) terminal.out(`  ${line}`);
  }
}
