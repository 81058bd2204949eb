import { decimalAgeYears } from '../../records/age.js';
import { type ShoeSystem, shoeFootLengthsMm, shoeStepMm } from '../../records/shoe-size.js';
import { foldText } from '../headings/fold-words.js';
import { headingDate } from '../headings/written-date.js';
import type { MadeRow } from './canonical.js';
import { saysNothing } from './cell-words.js';
import { type Column, cellOf } from './column.js';
import type { GridRow } from './grid.js';
import type { Person } from './people.js';
import { fieldColumns } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';
import { canBe, usualSize } from './usual-size.js';

const ACCEPTED = 'a size with its system, in the heading or the cell, such as 33 EU, UK 1.5 or US 13C';
/** 'EUR 33', '33', '1½ UK', '13 C', '7F': a system, a size, and a letter that says child, youth or the width. */
const SIZE =
  /^(eu|eur|uk|us|usa|mp|mondo)?\.?\s*(\d{1,3}(?:[.,]\d)?)(\s*½| 1\/2)?\s*(eu|eur|uk|us|usa)?\s*([a-z]{0,5})\.?$/i;

/** Shoe sizes of a row, as the foot length the shoe is made for; what cannot be told is refused and stays as written. */
export function shoesIn(
  taken: TakenTable,
  row: GridRow,
  person: Person,
  dateFor: (column: Column) => string | null,
): [Column, MadeRow][] {
  return fieldColumns(taken.columns, 'shoe.size').flatMap((column) =>
    shoesOf(cellOf(row, column)).flatMap((text) => shoeOf(taken, row, person, dateFor, column, text)),
  );
}

/** '33 / 31', 'EU 27/28': a size a foot, of one system. */
function shoesOf(cell: string): readonly string[] {
  const parts = cell.split(/\s*\/\s*(?!2(?!\d))/);
  const [, system = ''] = SIZE.exec(parts[0].trim()) ?? [];
  const both = parts.map((part, at) => (at > 0 && /^\d/.test(part) ? `${system} ${part}`.trim() : part));
  return both.length === 2 && both.every((part) => SIZE.test(part.trim())) ? both : [cell];
}

function shoeOf(
  taken: TakenTable,
  row: GridRow,
  person: Person,
  dateFor: (column: Column) => string | null,
  column: Column,
  text: string,
): [Column, MadeRow][] {
  if (text === '' || saysNothing(text)) return [];
  const date = dateFor(column);
  // Without a day the size stays with the child as written.
  if (date === null) return [];
  const age = person.birthDate ? decimalAgeYears(person.birthDate, date) : null;
  const said = SIZE.test(text.trim()) ? systemSaid(taken, row, column, text) : null;
  // Of a size nobody has said the system of yet nothing is told.
  if (said === 'open') return [];
  const shoe = shoeIn(text, said ?? column.heading, age);
  if (shoe === null) {
    taken.refuse(row, column, 'is no shoe size that can be told', ACCEPTED);
    return [];
  }
  const { system, size, footMm } = shoe;
  taken.left.mark(row, column);
  const made = {
    row: row.row,
    cells: {
      id: '',
      child_id: person.id,
      date,
      measure: 'shoe_length',
      side: '',
      value: footMm.toFixed(1),
      unit: 'mm',
      method: 'shoe',
      technical_error: shoeStepMm(system).toFixed(2),
      entered: `${system} ${size}`,
    },
    places: { value: { column: column.heading, given: text } },
  };
  return [[column, made]];
}

/** The system a column of bare sizes is in, asked once; null where heading, cell or size says it. */
function systemSaid(taken: TakenTable, row: GridRow, column: Column, text: string): string | null {
  const [, before, digits, , after] = SIZE.exec(text.trim()) ?? [];
  if (systemOf(before ?? after ?? column.heading, Number(digits.replace(',', '.'))) !== null) return null;
  const answer = taken.ask({
    id: `shoe:${foldText(column.heading.replace(headingDate(column.heading) ?? '', ' '))}`,
    asks: `Which sizes are those under "${column.heading}"?`,
    examples: column.examples,
    suggested: null,
    at: [row, column],
  });
  return answer === null || answer === 'leave' ? 'open' : answer;
}

function shoeIn(text: string, heading: string, age: number | null) {
  const [, before, digits, half, after, letter = ''] = SIZE.exec(text.trim()) ?? [];
  if (digits === undefined) return null;
  const size = Number(digits.replace(',', '.')) + (half ? 0.5 : 0);
  const system = systemOf(before ?? after ?? heading, size);
  if (system === null) return null;
  const lengths = shoeFootLengthsMm(system, size);
  const grown = /^(y|adult)$/i.test(letter) ? lengths.slice(-1) : lengths;
  const said = /^(c|k|child|kids?)$/i.test(letter) ? lengths.slice(0, 1) : grown;
  // The children's and the adults' scale lie 13 sizes apart: only one of them is near a child of this age.
  const usual = age === null ? null : usualSize('foot_length', age);
  if (usual === null && said.length > 1) return null;
  const off = (mm: number) => (usual === null ? 0 : Math.abs(Math.log(mm / usual)));
  const [footMm] = [...said].sort((x, y) => off(x) - off(y));
  return canBe('foot_length', footMm, age) ? { system, size, footMm } : null;
}

/** A figure alone says its system only where no other has it. */
function systemOf(words: string, size: number): ShoeSystem | null {
  const said = /(?<!\p{L})(eu|uk|us|mp|mondo)/iu.exec(words)?.[1].toUpperCase();
  if (said === 'EU' || said === 'UK' || said === 'US') return said;
  if (said !== undefined || size >= 80) return 'Mondopoint';
  return size >= 16 && size <= 50 ? 'EU' : null;
}
