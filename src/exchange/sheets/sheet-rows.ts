import { IN_FUTURE } from '../../records/check/refuse.js';
import { dayNumber, daysBetween, type IsoDate, isoDate } from '../../records/dates.js';
import type { FieldId } from '../headings/vocabulary.js';
import { headingDate } from '../headings/written-date.js';
import { birthYear, cellAge, dateAtAge, saidAge } from './cell-date.js';
import { isDash, saysNothing, sexWords } from './cell-words.js';
import { type ColumnOrder, dateOf } from './choose-dates.js';
import { type Column, cellOf } from './column.js';
import { bookOf, type GridRow } from './grid.js';
import {
  INITIAL,
  isShortOf,
  nameKey,
  namesAgree,
  namesSeveral,
  nearlySame,
  People,
  type Person,
} from './people.js';
import type { TakenTable } from './taken-table.js';

/** A row with whom it is about and when. */
export interface PersonRow {
  readonly row: GridRow;
  readonly person: Person | null;
  /** Why nobody was found. */
  readonly why: string;
}

/** The columns of a field; asked of every row, so they are looked for once a table. */
export function fieldColumns(columns: readonly Column[], field: FieldId): readonly Column[] {
  const found = byField.get(columns) ?? new Map<string, Column[]>();
  if (!byField.has(columns)) {
    byField.set(columns, found);
    for (const column of columns)
      if (column.meaning?.kind === 'field')
        found.set(column.meaning.field, [...(found.get(column.meaning.field) ?? []), column]);
  }
  return found.get(field) ?? NO_COLUMNS;
}
const byField = new WeakMap<readonly Column[], Map<string, Column[]>>();
const NO_COLUMNS: readonly Column[] = [];

/** The first filled cell of a field. */
export function fieldCell(
  columns: readonly Column[],
  row: GridRow,
  field: FieldId,
): { text: string; column: Column | null } {
  // 'Noé' and 'An' are names, whatever the word says elsewhere.
  const empty = /^child\.(name|first_name|last_name|id)$/.test(field) ? isDash : saysNothing;
  for (const column of fieldColumns(columns, field)) {
    const text = cellOf(row, column);
    if (text !== '' && !empty(text)) return { text, column };
  }
  return { text: '', column: fieldColumns(columns, field)[0] ?? null };
}

/** Everybody the tables speak of: first those with a birth date, then rows that only name them. */
export function meetPeople(tables: readonly TakenTable[]): {
  people: People;
  rows: Map<TakenTable, PersonRow[]>;
} {
  const people = new People();
  const rows = new Map<TakenTable, PersonRow[]>();
  const saysBirth = ({ columns }: TakenTable) => fieldColumns(columns, 'child.birth_date').length > 0;
  // Where another tab gives the birth dates none is reckoned.
  const books = new Set(tables.filter(saysBirth).map(bookOf));
  const withBirth = tables.filter((t) => saysBirth(t) || (!books.has(bookOf(t)) && reckonedFromAge(t)));
  for (const t of withBirth) t.reckoned = !saysBirth(t);
  for (const taken of [...withBirth, ...tables.filter((t) => !withBirth.includes(t))]) {
    rows.set(taken, peopleOf(taken, people, withBirth.includes(taken)));
  }
  return { people, rows };
}

/** Where the day of a row can stand on which an age is told: of the visit, else of what was done at it. */
const dayColumns = (columns: readonly Column[]): readonly Column[] =>
  (['visit.date', 'device.cast_date', 'device.fitted_date'] as const).flatMap((field) =>
    fieldColumns(columns, field),
  );
/** A sheet with an age and a visit's date but no birth date: the birth date is reckoned, once somebody agrees. */
function reckonedFromAge(taken: TakenTable): boolean {
  const age = fieldColumns(taken.columns, 'visit.age');
  if (age.length === 0 || dayColumns(taken.columns).length === 0) return false;
  return mayReckon(taken, 'The sheet has ages but no birth dates.', age[0]);
}

function mayReckon(taken: TakenTable, why: string, { examples, cells }: Column): boolean {
  const answer = taken.ask({
    id: 'birth:from-age',
    asks: `${why} Shall birth dates be reckoned from the age and the date of the visit?`,
    examples,
    cells,
    suggested: 'yes',
  });
  return answer === 'yes';
}

function peopleOf(taken: TakenTable, people: People, withBirth: boolean): PersonRow[] {
  const { table, columns, orders } = taken;
  const { today } = taken.desk;
  const birthColumn = fieldColumns(columns, 'child.birth_date')[0];
  const hasWho = ['child.id', 'child.name', 'child.first_name', 'child.last_name'].some(
    (f) => fieldColumns(columns, f as FieldId).length > 0,
  );
  if (!hasWho && birthColumn === undefined)
    return table.rows.map((row) => ({ row, person: null, why: 'does not say which child' }));
  let last: Person | null = null;
  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: whose row it is, by what the row says and else by the one above
  return table.rows.map((row) => {
    const id = fieldCell(columns, row, 'child.id').text;
    const name = nameOf(columns, row);
    const birthText = cellOf(row, birthColumn);
    if (id === '' && name === '' && (birthText === '' || saysNothing(birthText))) {
      // Nothing of the child on the line: it goes on with the child above, as merged or left-out cells mean.
      return { row, person: last, why: 'does not say which child' };
    }
    if (namesSeveral(name)) {
      last = null;
      return { row, person: null, why: 'names more than one child; give each rows of its own' };
    }
    let birth: IsoDate | null = null;
    let toDays = 0;
    let told = false;
    const year = birthYear(birthText);
    if (birthColumn !== undefined && year !== null) {
      if (birthYearsAsked(taken, birthColumn)) birth = isoDate(dayNumber(`${year}-07-01`));
    } else if (birthColumn !== undefined && bornByAge(taken, people, row, birthText, { id, name })) {
      const reckoned = fromAge(taken, row, saidAge(birthText) === null ? undefined : birthText);
      birth = reckoned?.birth ?? null;
      toDays = reckoned?.toDays ?? 0;
    } else if (birthColumn !== undefined && birthText !== '') {
      const date = dateOf(birthText, orders.get(birthColumn.index), today);
      told = date !== null && ('why' in date || date.date > today);
      if (date && 'why' in date)
        taken.refuse(row, birthColumn, date.why, 'a birth date such as 2018-03-14 or 14.03.2018');
      else if (date && date.date > today) taken.refuse(row, birthColumn, IN_FUTURE, 'a date up to today');
      else birth = date?.date ?? null;
    } else if (withBirth && birthColumn === undefined) {
      const reckoned = fromAge(taken, row);
      birth = reckoned?.birth ?? null;
      toDays = reckoned?.toDays ?? 0;
    }
    // A birth date alone, repeated under a name, goes on with the child above.
    const goesOn = id === '' && name === '' && last !== null && last.birthDate === birth;
    if (!goesOn && isOther(taken, people, row, { id, name, birth, toDays })) {
      last = null;
      return { row, person: null, why: '' };
    }
    const found: Person | null = goesOn ? last : people.meet(id, name, birth, toDays);
    last = found;
    if (found && name !== '' && name !== found.name && isShortOf(name, found.name))
      taken.tell(
        `"${name}" is taken as "${found.name}", ${birth === null ? 'the only child so called' : 'born on the same day'}.`,
      );
    if (found && birth !== null && found.birthDate !== birth && birthColumn !== undefined) {
      taken.refuse(
        row,
        birthColumn,
        `differs from ${found.birthDate}, read before for this child; the first is kept`,
        'one birth date for a child',
      );
    }
    const several = found === null && people.find(id, name, birth, toDays) === 'several';
    const unknown = withBirth ? 'has no birth date that can be read' : 'is no child with a birth date';
    const why = several ? 'is the name of several children; a number or a birth date says which' : unknown;
    return { row, person: found, why: found === null && told ? '' : why };
  });
}

interface Who {
  readonly id: string;
  readonly name: string;
  readonly birth: IsoDate | null;
  readonly toDays: number;
}

/** A row whose number is one child's and whose name, or birth date, another's: its sizes are neither's. */
function isOther(taken: TakenTable, people: People, row: GridRow, who: Who): boolean {
  const known = who.id === '' ? null : people.find(who.id, who.name, who.birth, who.toDays);
  if (known === null || known === 'several') return false;
  const by = contradicts(people, who, known);
  if (by === null) return false;
  const named = known.name || `the child born ${known.birthDate}`;
  const why = `is another child than ${named} of the same number; nothing of the row was taken`;
  const column =
    by === 'name' ? nameColumn(taken.columns) : fieldCell(taken.columns, row, 'child.birth_date').column;
  taken.refuse(row, column, why, 'one name and birth date for a number');
  return true;
}

/** What of a row says that it is of another child than its number does. */
function contradicts(people: People, { name, birth, toDays }: Who, known: Person): 'name' | 'birth' | null {
  const isSlip = () => nearlySame(name, known.name) && people.find('', name, null) === null;
  if (name !== '' && known.name !== '' && !namesAgree(name, known.name) && !isSlip()) return 'name';
  if (birth === null || known.birthDate === null) return null;
  if (Math.abs(daysBetween(known.birthDate, birth)) <= toDays) return null;
  // Of the whole name again a birth date is a slip: told, and the first is kept.
  const isWhole = name.includes(' ') && nameKey(name) === nameKey(known.name) && !INITIAL.test(name);
  return isWhole ? null : 'birth';
}

/** '7 yrs' under births, or no birth date of somebody new beside an age: reckoned, once somebody agrees. */
function bornByAge(
  taken: TakenTable,
  people: People,
  row: GridRow,
  birthText: string,
  { id, name }: { readonly id: string; readonly name: string },
): boolean {
  const own = saidAge(birthText) !== null;
  const age = own
    ? fieldColumns(taken.columns, 'child.birth_date')[0]
    : fieldCell(taken.columns, row, 'visit.age').column;
  if (age === null || (!own && (birthText !== '' || cellAge(cellOf(row, age), age.heading) === null)))
    return false;
  if (people.find(id, name, null) !== null || fromAge(taken, row, own ? birthText : undefined) === null)
    return false;
  return mayReckon(taken, 'A child has an age and no birth date.', {
    ...age,
    cells: 1,
    examples: [cellOf(row, age)],
  });
}

/** A sheet with birth years and no birthdays: the middle of the year, once somebody agrees. */
function birthYearsAsked(taken: TakenTable, column: Column): boolean {
  const answer = taken.ask({
    id: 'birth:from-year',
    asks: `"${column.heading}" holds years. Shall the middle of the year stand for the birth date?`,
    examples: column.examples,
    suggested: 'yes',
  });
  if (answer === 'yes')
    taken.tell('birth years are read as 1 July of the year; ages can be wrong by half a year.');
  return answer === 'yes';
}

/** An age counts what is completed: whole or half years, or months; so far apart two visits of one child can put its birth. */
const YEARS_TO_DAYS = 366;
const MONTHS_TO_DAYS = 45;

function fromAge(
  { columns, orders, desk }: TakenTable,
  row: GridRow,
  said?: string,
): { readonly birth: IsoDate; readonly toDays: number } | null {
  const age = fieldCell(columns, row, 'visit.age');
  const years = said === undefined ? cellAge(age.text, age.column?.heading) : cellAge(said);
  const date = dayColumns(columns)
    .map((column) => dateOf(cellOf(row, column), orders.get(column.index), desk.today))
    .find((day) => day !== null && 'date' in day);
  if (years === null || !date || 'why' in date) return null;
  return {
    birth: dateAtAge(date.date, -years),
    toDays: Number.isInteger(2 * years) ? YEARS_TO_DAYS : MONTHS_TO_DAYS,
  };
}

/** 'Farr, Milo (M)', 'Ivy Grant (girl)'. */
const SEX_BESIDE = new RegExp(
  String.raw`\s*\((${[...sexWords].filter((word) => !word.includes(' ')).join('|')})\)\s*$`,
  'i',
);

/** The cell that says a child's sex: of its column, else in brackets behind the name. */
export function sexCell(columns: readonly Column[], row: GridRow): { text: string; column: Column | null } {
  const said = fieldCell(columns, row, 'child.sex');
  if (said.column !== null) return said;
  const { text, column } = fieldCell(columns, row, 'child.name');
  return { text: SEX_BESIDE.exec(text)?.[1] ?? '', column };
}

export const nameColumn = (columns: readonly Column[]): Column | null =>
  (['child.name', 'child.last_name', 'child.first_name'] as const).flatMap((field) =>
    fieldColumns(columns, field),
  )[0] ?? null;

export function nameOf(columns: readonly Column[], row: GridRow): string {
  const first = fieldCell(columns, row, 'child.first_name').text;
  const last = fieldCell(columns, row, 'child.last_name').text;
  const whole = fieldCell(columns, row, 'child.name').text;
  // Both names, or one of them with the rest under 'name'.
  const parts = first === '' ? [whole, last] : [first, last || whole];
  const name = parts
    .filter((part) => part !== '')
    .join(' ')
    .replace(SEX_BESIDE, '')
    .trim();
  // 'Surname, First' is 'First Surname'.
  const comma = /^([^,]+),\s*([^,]+)$/.exec(name);
  return comma ? `${comma[2]} ${comma[1]}` : name;
}

/** The date a title carries, in the order of the sheet's other dates. */
export function dateInText(text: string, today: IsoDate, order: ColumnOrder): IsoDate | null {
  const written = headingDate(text);
  const date = written === null ? null : dateOf(written, order, today);
  return date && 'date' in date && date.date <= today ? date.date : null;
}
