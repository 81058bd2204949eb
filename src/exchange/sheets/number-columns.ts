import { fieldMeaning, isField } from '../headings/meaning.js';
import { type Column, cellOf, columnQuestion } from './column.js';
import { fieldColumns } from './sheet-rows.js';
import { TakenTable } from './taken-table.js';

/** How many of the numbers of the other tabs the list has to know; the others are somebody's who is not on it. */
const MOST = 0.8;

const CHILD_ID = fieldMeaning('child.id');

/** A column of running numbers that can be the children's. */
export const isNumber = ({ meaning, candidates }: Column): boolean =>
  (meaning === null || meaning.kind === 'keep') && candidates.some((c) => isField(c.meaning, 'child.id'));

const withChildId = (taken: TakenTable, number: Column): TakenTable =>
  new TakenTable(
    taken.table,
    taken.columns.map((c) => (c === number ? { ...c, meaning: CHILD_ID, certainty: 'certain' as const } : c)),
    taken.orders,
    taken.desk,
  );

const numbersIn = ({ table }: TakenTable, column: Column): Set<string> => {
  const numbers = new Set(table.rows.map((row) => cellOf(row, column)));
  numbers.delete('');
  return numbers;
};

/**
 * A list of children numbered under 'No', and other tabs that speak of them by that number: the running number is the
 * child's. Only where nearly every number the others use stands in the list.
 */
export function withSharedNumbers(all: readonly TakenTable[]): TakenTable[] {
  const isList = ({ columns }: TakenTable) => fieldColumns(columns, 'child.birth_date').length > 0;
  const idOf = ({ columns }: TakenTable) =>
    fieldColumns(columns, 'child.id')[0] ?? (namesSomebody(columns) ? undefined : columns.find(isNumber));
  const others = all.filter((taken) => !isList(taken) && idOf(taken) !== undefined);
  const used = new Set(others.flatMap((taken) => [...numbersIn(taken, idOf(taken) as Column)]));
  if (used.size === 0) return [...all];
  const listed = (taken: TakenTable, column: Column) => {
    const own = numbersIn(taken, column);
    return [...used].filter((value) => own.has(value)).length >= used.size * MOST;
  };
  let shared = false;
  const lists = all.map((taken) => {
    if (!isList(taken)) return taken;
    const [own] = fieldColumns(taken.columns, 'child.id');
    const number =
      own ??
      taken.columns.find(
        (column) =>
          (column.meaning === null || column.meaning.kind === 'keep') &&
          taken.desk.asker.known(columnQuestion(column), taken.table.file) === null &&
          listed(taken, column),
      );
    if (number === undefined || !listed(taken, number)) return taken;
    shared = true;
    return own === undefined ? withChildId(taken, number) : taken;
  });
  return lists.map((taken) => {
    const number = shared && others.includes(taken) ? idOf(taken) : undefined;
    return number === undefined || isField(number.meaning, 'child.id') ? taken : withChildId(taken, number);
  });
}

/** Does a column say of whom a row is? */
export const namesSomebody = (columns: readonly Column[]): boolean =>
  columns.some((c) => {
    const meaning = c.meaning ?? c.candidates[0]?.meaning;
    return (
      meaning?.kind === 'field' && /^child\.(id|name|first_name|last_name|birth_date)$/.test(meaning.field)
    );
  });
