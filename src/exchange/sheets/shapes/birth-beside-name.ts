import { fieldHeaded } from '../../headings/heading-meaning.js';
import { writtenDates } from '../../headings/written-date.js';
import { isDay } from '../cell-date.js';
import type { SheetTable } from '../grid.js';

/** 'Lia Conti (12/05/2018)' under names in a list without births: the name, and the birth date as a column of its own. */
export function withBirthApart(table: SheetTable): SheetTable {
  const { headings, rows } = table;
  const fields = headings.map((heading) => fieldHeaded(heading, 0.6));
  const at = fields.findIndex((field) => /^child\.(?:id|name|last_name)$/.test(field));
  if (at === -1 || fields.includes('child.birth_date')) return table;
  const parts = rows.map(({ cells }) => birthIn(cells[at] ?? ''));
  const filled = rows.filter(({ cells }) => (cells[at] ?? '') !== '').length;
  const found = parts.filter((part) => part !== null).length;
  if (found < 2 || found < filled * 0.8) return table;
  return {
    ...table,
    headings: [...headings.with(at, 'Name'), 'DOB'],
    rows: rows.map(({ row, cells }, n) => {
      const own = headings.map((_, column) => cells[column] ?? '');
      const part = parts[n];
      return { row, cells: [...(part === null ? own : own.with(at, part.name)), part?.birth ?? ''] };
    }),
  };
}

function birthIn(cell: string): { readonly name: string; readonly birth: string } | null {
  const [day, ...more] = [...writtenDates(cell)].filter(([written]) => isDay(written));
  if (day === undefined || more.length > 0) return null;
  const name = cell
    .slice(0, day.index)
    .replace(/[\s,;(*]+$/, '')
    .replace(/\s+(?:\*|b|born|dob|geb|nato|nata|né|née|nac)\.?$/iu, '');
  const rest = cell.slice(day.index + day[0].length).replace(/[\s)]/g, '');
  return /\p{L}/u.test(name) && rest === '' ? { name, birth: day[0] } : null;
}
