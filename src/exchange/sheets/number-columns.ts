import { type Column, columnQuestion } from './column.js';
import { cellOf, fieldColumns } from './sheet-rows.js';
import { TakenTable } from './taken-table.js';

/**
 * A list of children numbered under 'No', and other tabs that speak of them by that number: the running number is the
 * child's. Only where every number the others use stands in the list.
 */
export function withSharedNumbers(all: readonly TakenTable[]): TakenTable[] {
  const used = new Set(
    all
      .filter(({ columns }) => fieldColumns(columns, 'child.birth_date').length === 0)
      .flatMap(({ table, columns }) => {
        const [id] = fieldColumns(columns, 'child.id');
        return id === undefined ? [] : table.rows.map((row) => cellOf(row, id));
      }),
  );
  used.delete('');
  if (used.size === 0) return [...all];
  return all.map((taken) => {
    const { table, columns } = taken;
    if (fieldColumns(columns, 'child.birth_date').length === 0) return taken;
    if (fieldColumns(columns, 'child.id').length > 0) return taken;
    const number = columns.find((column) => {
      if (column.meaning !== null && column.meaning.kind !== 'keep') return false;
      if (taken.desk.asker.known(columnQuestion(column), table.file) !== null) return false;
      const own = new Set(table.rows.map((row) => cellOf(row, column)));
      return [...used].every((value) => own.has(value));
    });
    if (number === undefined) return taken;
    const meaning: Column['meaning'] = { kind: 'field', field: 'child.id', side: null, family: null };
    const numbered = columns.map((c) =>
      c === number ? { ...c, meaning, certainty: 'certain' as const } : c,
    );
    return new TakenTable(table, numbered, taken.orders, taken.desk);
  });
}
