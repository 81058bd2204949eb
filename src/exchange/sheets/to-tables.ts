import { acceptedDates, IN_FUTURE } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Unit } from '../../records/units.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { contentId } from '../csv/read-rows.js';
import type { TextTable } from '../csv/read-table.js';
import { meaningText } from '../headings/meaning.js';
import type { RefusedRow } from '../refused-row.js';
import { type MadeRow, madeTable } from './canonical.js';
import { cellAge, dateAtAge } from './cell-date.js';
import { saysNothing } from './cell-words.js';
import { ChildRows } from './child-rows.js';
import { sexReader } from './child-sex.js';
import { chooseDates, dateOf, type Order } from './choose-dates.js';
import { chooseUnits } from './choose-units.js';
import { DeviceRows } from './device-rows.js';
import type { GridRow, SheetTable } from './grid.js';
import type { Asker } from './questions.js';
import { measurementRows, type RawReading, readingsIn, valueColumns } from './reading-rows.js';
import {
  cellOf,
  dateInText,
  fieldColumns,
  meetPeople,
  type PersonRow,
  refusal,
  type TakenTable,
} from './sheet-rows.js';
import {
  type Column,
  columnName,
  columnQuestion,
  headingDate,
  letters,
  sheetLanguages,
  takeColumns,
} from './take-columns.js';

export interface SheetSettings {
  readonly today: IsoDate;
  readonly order: Order | null;
  readonly unit: Unit | null;
  readonly rules: FitRules;
}

export interface ColumnShown {
  readonly file: string;
  /** The sheet by its headings, and the question that asks what the column holds. */
  readonly sheet: string;
  readonly question: string;
  readonly heading: string;
  readonly meaning: string;
  readonly certainty: string;
  readonly examples: readonly string[];
}

export interface SheetResult {
  readonly tables: TextTable[];
  readonly refused: RefusedRow[];
  readonly notices: string[];
  readonly doubtful: RefusedRow[];
  /** What each column was taken for. */
  readonly columns: ColumnShown[];
}

/** A clinic's own sheets as the tables doorpost reads: columns, dates, people, units, then row by row. */
export function toTables(sheets: readonly SheetTable[], settings: SheetSettings, asker: Asker): SheetResult {
  const refused: RefusedRow[] = [];
  const notices: string[] = [];
  const doubtful: RefusedRow[] = [];
  const shown: ColumnShown[] = [];
  const taken: TakenTable[] = [];
  for (const file of new Set(sheets.map((t) => t.file)))
    asker.meet(
      file,
      sheets.filter((t) => t.file === file).flatMap((t) => t.headings),
    );
  for (const table of sheets) {
    const columns = takeColumns(table, asker, settings.today);
    if (!isOfUse(columns)) {
      notices.push(`${table.file}: nothing here that doorpost reads; the sheet was left out.`);
      continue;
    }
    shown.push(...columns.filter((c) => c.cells > 0).map((c) => shownColumn(table, c, asker)));
    taken.push({
      table,
      columns,
      orders: chooseDates(table, columns, asker, settings.today, settings.order, notices),
    });
  }
  const { rows } = meetPeople(taken, asker, settings.today, refused, notices);
  const children = new ChildRows(asker, refused, notices);
  for (const t of taken)
    children.add(t, rows.get(t) ?? [], sexReader(t, taken, sheetLanguages(t.table), asker));
  const sides = new Map(
    children
      .made()
      .flatMap(({ rows: made }) => made.map(({ cells }) => [cells.id, cells.affected_side ?? ''] as const)),
  );
  const tables: TextTable[] = [];
  for (const t of taken)
    tables.push(
      ...oneTable(t, rows.get(t) ?? [], settings, asker, { refused, notices, doubtful, children, sides }),
    );
  const childTables = children.made().map(({ file, rows: made }) => madeTable(file, 'children', made));
  return { tables: [...childTables, ...tables], refused, notices, doubtful, columns: shown };
}

interface Shared {
  readonly refused: RefusedRow[];
  readonly notices: string[];
  readonly doubtful: RefusedRow[];
  readonly children: ChildRows;
  readonly sides: ReadonlyMap<string, string>;
}

const shownColumn = (table: SheetTable, c: Column, asker: Asker): ColumnShown => ({
  file: table.file,
  sheet: asker.sheetOf(table.file),
  question: columnQuestion(c),
  heading: columnName(c),
  meaning: c.meaning === null ? '' : meaningText(c.meaning),
  certainty: c.certainty,
  examples: c.examples,
});
/** A sheet with a child and something to say of it, or one the others' children can be found in. */
function isOfUse(columns: readonly Column[]): boolean {
  const kinds = columns.map((c) => c.meaning ?? c.candidates[0]?.meaning ?? null);
  const who = kinds.some(
    (m) => m?.kind === 'field' && /^child\.(id|name|first_name|last_name|birth_date)$/.test(m.field),
  );
  const what = kinds.filter(
    (m) =>
      m &&
      (m.kind === 'reading' ||
        m.kind === 'device' ||
        (m.kind === 'field' && !/^child\.(id|name)$/.test(m.field) && m.field !== 'side')),
  ).length;
  return who && what > 0;
}

function oneTable(
  taken: TakenTable,
  rows: readonly PersonRow[],
  settings: SheetSettings,
  asker: Asker,
  shared: Shared,
): TextTable[] {
  const { table, columns } = taken;
  const { refused, notices, doubtful } = shared;
  const devices = new DeviceRows(taken, settings.rules, asker, refused, settings.today, notices);
  const visits = visitDates(taken, settings.today, asker, notices, refused);
  const readings: RawReading[] = [];
  const markers: MadeRow[] = [];
  const firstDevice = new Map<GridRow, MadeRow>();
  const speaks = columns.some(
    (c) =>
      c.meaning?.kind === 'reading' ||
      c.meaning?.kind === 'device' ||
      (c.meaning?.kind === 'field' && /^(device|marker|long|shoe)\./.test(c.meaning.field)),
  );
  for (const { row, person, why } of rows) {
    if (person === null || person.birthDate === null) {
      if (why === '') continue;
      const who =
        columns.find(
          (c) =>
            c.meaning?.kind === 'field' && /^child\.(id|name|last_name|first_name)$/.test(c.meaning.field),
        ) ?? null;
      refused.push(refusal(table, row, who, why, 'a child with a birth date'));
      continue;
    }
    if (!speaks) continue;
    const dateFor = (column: Column) => visits(row, column, person.birthDate);
    readings.push(...readingsIn(taken, row, person, dateFor, asker, refused));
    const visit = visits(row, null, person.birthDate);
    const device = devices.add(row, person, visit, shared.sides.get(person.id) ?? '');
    if (device) firstDevice.set(row, device);
    markers.push(...markersIn(taken, row, person.id, visit, refused, settings.today));
  }
  const units = chooseUnits(valueColumns(taken, readings), asker, settings.unit, notices);
  const measurements = measurementRows(taken, readings, units, refused, doubtful);
  keepOthers(taken, rows, measurements, firstDevice, shared.children);
  const made: TextTable[] = [];
  if (measurements.length > 0) made.push(madeTable(table.file, 'measurements', measurements));
  if (devices.rows.length > 0) made.push(madeTable(table.file, 'devices', devices.rows));
  if (devices.events.length > 0) made.push(madeTable(table.file, 'events', unique(devices.events)));
  if (markers.length > 0) made.push(madeTable(table.file, 'markers', unique(markers)));
  return made;
}

const unique = (rows: readonly MadeRow[]): MadeRow[] => [
  ...new Map(rows.map((r) => [r.cells.id, r])).values(),
];

/** The date of measuring for a cell: in its heading, its group's visit, the row's visit, the cast, or the title. */
function visitDates(
  taken: TakenTable,
  today: IsoDate,
  asker: Asker,
  notices: string[],
  refused: RefusedRow[],
) {
  const { table, columns, orders } = taken;
  const dateColumns = fieldColumns(columns, 'visit.date').filter((c) => c.cells > 0);
  const ages = fieldColumns(columns, 'visit.age').filter((c) => c.cells > 0);
  const readings = columns.filter(
    (c) => c.meaning?.kind === 'reading' || (c.meaning?.kind === 'field' && c.meaning.field === 'long.value'),
  );
  // One visit a row takes its date from the column that is filled most; several take the nearest to their left.
  const main =
    dateColumns.length === 0
      ? undefined
      : [...dateColumns].sort((a, b) => b.cells - a.cells || a.index - b.index)[0];
  const grouped =
    dateColumns.filter((c, i) =>
      readings.some(
        (r) => r.index > c.index && (i + 1 >= dateColumns.length || r.index < dateColumns[i + 1].index),
      ),
    ).length > 1;
  const casts = fieldColumns(columns, 'device.cast_date');
  const titleDate =
    table.titles.map((t) => dateInText(t, today)).find((d) => d !== null) ?? dateInText(table.file, today);
  const told = new Set<string>();
  const read = (row: GridRow, column: Column): IsoDate | null => {
    const text = cellOf(row, column);
    const date = text === '' ? null : dateOf(text, orders.get(column.index), today);
    if (date === null) return null;
    const once = `${row.row}/${column.index}`;
    if ('why' in date || date.date > today) {
      if (!told.has(once))
        refused.push(
          refusal(table, row, column, 'why' in date ? date.why : IN_FUTURE, acceptedDates('birth')),
        );
      told.add(once);
      return null;
    }
    if (date.monthOnly && !told.has('month')) {
      told.add('month');
      notices.push(`${table.file}: months without a day under "${column.heading}" are taken as their 15th.`);
    }
    return date.date;
  };
  return (row: GridRow, column: Column | null, birth: IsoDate | null): IsoDate | null => {
    const inHeading = column === null ? null : headingDate(column.heading);
    if (inHeading !== null) {
      const date = dateOf(inHeading, undefined, today);
      if (date && 'date' in date && date.date <= today) return date.date;
    }
    const own = grouped && column !== null ? dateColumns.filter((c) => c.index < column.index).pop() : main;
    if (own && cellOf(row, own) !== '') return read(row, own);
    if (own) {
      const other = grouped ? undefined : dateColumns.find((c) => c !== own && cellOf(row, c) !== '');
      if (other) return read(row, other);
    }
    const age = ages.length > 0 && birth !== null ? cellAge(cellOf(row, ages[0]), ages[0].heading) : null;
    if (age !== null && birth !== null && dateAtAge(birth, age) <= today) return dateAtAge(birth, age);
    if (casts.length > 0 && column !== null) {
      const cast =
        casts.map((c) => (cellOf(row, c) === '' ? null : read(row, c))).find((d) => d !== null) ?? null;
      if (cast !== null) {
        const answer = asker.ask({
          id: 'visit:from-cast',
          file: table.file,
          asks: 'The sheet has no date of measuring. Were the sizes taken on the day of the cast?',
          examples: casts[0].examples,
          cells: 1,
          suggested: 'yes',
          choices: [
            { answer: 'yes', label: 'yes' },
            { answer: 'no', label: 'no, leave the sizes out' },
          ],
        });
        return answer === 'yes' ? cast : null;
      }
    }
    if (column === null && main === undefined) return titleDate;
    if (titleDate && dateColumns.length === 0) {
      if (!told.has('title'))
        notices.push(`${table.file}: sizes are dated ${titleDate}, the date in the title.`);
      told.add('title');
      return titleDate;
    }
    if (column === null || dateColumns.length > 0) return null;
    const said = asker.ask({
      id: `visit:date-of:${table.file}`,
      file: table.file,
      asks: 'On which day were these sizes taken? No column says so.',
      examples: column.examples,
      cells: 1,
      suggested: null,
      choices: [],
    });
    return said;
  };
}

function markersIn(
  taken: TakenTable,
  row: GridRow,
  childId: string,
  visit: IsoDate | null,
  refused: RefusedRow[],
  today: IsoDate,
): MadeRow[] {
  const rows: MadeRow[] = [];
  for (const column of taken.columns) {
    if (column.meaning?.kind !== 'field' || !column.meaning.field.startsWith('marker.')) continue;
    const text = cellOf(row, column);
    if (text === '' || saysNothing(text)) continue;
    const kind = column.meaning.field.slice('marker.'.length).replace('_', '-');
    const roman = /^[ivIV]+$/.test(text)
      ? { i: 1, ii: 2, iii: 3, iv: 4, v: 5 }[text.toLowerCase()]
      : undefined;
    const when = kind === 'menarche' ? dateOf(text, taken.orders.get(column.index), today) : null;
    const date = when && 'date' in when ? when.date : kind === 'menarche' ? null : visit;
    const value =
      kind === 'menarche'
        ? '0'
        : kind === 'bone-age'
          ? cellAge(text)
          : (roman ?? /\d/.exec(text)?.[0] ?? null);
    if (date === null || value === null) {
      if (!(kind === 'menarche' && /^(no|n|nein|non|nee)$/i.test(text)))
        refused.push(
          refusal(
            taken.table,
            row,
            column,
            date === null ? 'has no date' : 'is no such stage',
            'a stage with the date of the visit, or a date',
          ),
        );
      continue;
    }
    rows.push({
      row: row.row,
      cells: {
        id: contentId('k', childId, date, kind, String(value)),
        child_id: childId,
        date,
        kind,
        value: String(value),
      },
      places: { value: { column: column.heading, given: text } },
    });
  }
  return rows;
}

/** Cells nobody reads are kept: with the child, or where a child has several rows with the row's first record. */
function keepOthers(
  taken: TakenTable,
  rows: readonly PersonRow[],
  measurements: readonly MadeRow[],
  devices: ReadonlyMap<GridRow, MadeRow>,
  children: ChildRows,
): void {
  const kept = taken.columns.filter(
    (c) => c.cells > 0 && (c.meaning === null || c.meaning.kind === 'keep' || unread(c, taken)),
  );
  if (kept.length === 0) return;
  const count = new Map<string, number>();
  for (const { person } of rows) if (person) count.set(person.id, (count.get(person.id) ?? 0) + 1);
  const first = new Map<number, MadeRow>();
  for (const m of measurements) if (!first.has(m.row)) first.set(m.row, m);
  for (const { row, person } of rows) {
    if (person === null) continue;
    for (const column of kept) {
      const text = cellOf(row, column);
      if (text === '') continue;
      const heading = (column.heading || `column ${letters(column.index)}`).replace(/^extra:/, '');
      const record = (count.get(person.id) ?? 0) > 1 ? (first.get(row.row) ?? devices.get(row)) : undefined;
      if (record) (record.cells as Record<string, string>)[`extra:${heading}`] = text;
      else children.keep(person.id, heading, text);
    }
  }
}

/** Fields that are understood and that nothing reads in this sheet: a verdict without a device, a shoe size. */
function unread(column: Column, taken: TakenTable): boolean {
  if (column.meaning?.kind !== 'field') return false;
  const { field } = column.meaning;
  if (field === 'shoe.size') return true;
  const devices = taken.columns.some(
    (c) =>
      c.meaning?.kind === 'device' || (c.meaning?.kind === 'field' && c.meaning.field === 'device.family'),
  );
  if (/^device\.(verdict|status|footplate)$/.test(field)) return !devices;
  return field === 'visit.age' && fieldColumns(taken.columns, 'visit.date').length > 0;
}
