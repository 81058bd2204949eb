import type { IsoDate } from '../../records/dates.js';
import type { Unit } from '../../records/units.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { columns, type TableName } from '../csv/columns.js';
import type { TextTable } from '../csv/read-table.js';
import { isField, type Meaning, meaningText } from '../headings/meaning.js';
import { answerLabel } from '../headings/meaning-label.js';
import { ownMeanings } from '../headings/own-columns.js';
import type { RefusedRow } from '../refused-row.js';
import { type MadeRow, madeTable } from './canonical.js';
import { cellAge } from './cell-date.js';
import { sideIn } from './cell-words.js';
import { ChildRows } from './child-rows.js';
import { sexReader } from './child-sex.js';
import { chooseDates, type Order, sureOrders } from './choose-dates.js';
import { chooseUnits } from './choose-units.js';
import { type Column, cellOf, columnName, columnQuestion } from './column.js';
import { DeviceRegister, type Mention } from './devices/device-register.js';
import { DeviceRows } from './devices/device-rows.js';
import { type Remark, remarkEvents, remarksIn, tellUnheard } from './devices/remark-rows.js';
import { bookOf, type GridRow, type SheetTable } from './grid.js';
import { keepOthers } from './keep-others.js';
import { isMeasured, isOfDevices, leftOverLines } from './left-over.js';
import { markersIn } from './marker-rows.js';
import { measurementRecords, type SheetReadings, valueColumns } from './measurement-records.js';
import { isNumber, namesSomebody, withSharedNumbers } from './number-columns.js';
import type { Asker } from './questions.js';
import { type RawReading, readingsIn } from './reading-rows.js';
import { sheetLanguages } from './sheet-languages.js';
import { fieldColumns, meetPeople, type PersonRow } from './sheet-rows.js';
import { shoesIn } from './shoe-rows.js';
import { takeColumns } from './take-columns.js';
import { type Desk, TakenTable } from './taken-table.js';
import { visitDates } from './visit-dates.js';

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
  readonly readings: readonly SheetReadings[];
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
  const understood: TakenTable[] = [];
  for (const file of new Set(sheets.map((t) => t.file)))
    asker.meet(
      file,
      sheets.filter((t) => t.file === file).flatMap((t) => t.headings),
    );
  const desk: Desk = { today: settings.today, rules: settings.rules, asker, refused, notices, doubtful };
  const { today, order } = settings;
  const read = sheets.map((table) => ({ table, columns: takeColumns(table, asker, today) }));
  const ordersOf = new Map<string, Order[]>();
  for (const { table, columns } of read)
    ordersOf.set(bookOf(table), [
      ...(ordersOf.get(bookOf(table)) ?? []),
      ...sureOrders(table, columns, today),
    ]);
  for (const { table, columns } of read) {
    if (!isOfUse(columns)) {
      notices.push(leftOut(table));
      continue;
    }
    const beside = [...new Set(ordersOf.get(bookOf(table)))];
    const orders = chooseDates(table, columns, asker, today, order, beside, notices);
    understood.push(new TakenTable(table, columns, orders, desk));
  }
  if (understood.length > 0)
    for (const { table } of read.filter(({ columns }) => !isOfUse(columns))) asker.forget(table.file);
  const numbered = withSharedNumbers(understood);
  const taken = numbered.filter(({ columns }) => namesSomebody(columns));
  for (const { table } of numbered.filter((t) => !taken.includes(t))) notices.push(leftOut(table));
  const shown = taken.flatMap(({ table, columns }) =>
    columns.filter((c) => c.cells > 0).map((c) => shownColumn(table, c, asker)),
  );
  notices.push(...taken.flatMap(toldColumns));
  const { rows } = meetPeople(taken);
  const children = new ChildRows();
  for (const t of taken) children.add(t, rows.get(t) ?? [], sexReader(t, taken, sheetLanguages(t.table)));
  const cells = new Map(
    children.made().flatMap(({ rows: made }) => made.map((child) => [child.cells.id, child.cells] as const)),
  );
  const register = new DeviceRegister();
  const all = taken.map((t) => gathered(t, rows.get(t) ?? [], new DeviceRows(t, register), cells));
  addDevices(all);
  if (!all.some(saysFitted)) for (const { devices } of all) devices.reckonFittings();
  const made = all.map((t) => madeTables(t, settings.unit, register, children));
  const childTables = children.made().map(({ file, rows: made }) => madeTable(file, 'children', made));
  return {
    tables: [...childTables, ...made.flatMap(({ tables }) => tables)],
    readings: made.map(({ readings }) => readings),
    refused,
    notices: [...leftOver(taken), ...notices],
    doubtful,
    columns: shown,
  };
}

/** What no record was made of, a file at a time. */
function leftOver(taken: readonly TakenTable[]): string[] {
  const books = [...new Set(taken.map(({ table }) => bookOf(table)))];
  return books.flatMap((book) =>
    leftOverLines(
      book,
      taken.flatMap(({ table, left }) => (bookOf(table) === book ? left.all : [])),
    ),
  );
}

/** Columns that were taken for what alone they can be, though their headings do not say it whole. */
function toldColumns({ file, columns }: TakenTable): string[] {
  const likely = columns.filter(({ certainty, meaning }) => certainty === 'likely' && meaning !== null);
  const told = likely.map((c) => `"${columnName(c)}" as ${answerLabel(meaningText(c.meaning as Meaning))}`);
  return told.length === 0 ? [] : [`${file}: taken as they read: ${[...new Set(told)].join('; ')}.`];
}

/** Whether a table says when devices were fitted or their state, by a column, one that waits to be called so, or a cell; our own say what they say. */
const saysFitted = ({ taken, devices }: Gathered): boolean =>
  devices.rows.some(({ cells }) => cells.fitted_date) ||
  ownMeanings(taken.table.headings).size > 0 ||
  taken.columns.some(
    ({ meaning, candidates }) =>
      isField(meaning, 'device.fitted_date') ||
      isField(meaning, 'device.status') ||
      (meaning === null && candidates.some((c) => isField(c.meaning, 'device.fitted_date'))),
  );

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
  const what = kinds.some(
    (m) =>
      m &&
      (m.kind === 'reading' ||
        m.kind === 'device' ||
        (m.kind === 'field' && !/^child\.(id|name)$/.test(m.field) && m.field !== 'side')),
  );
  return what && (namesSomebody(columns) || columns.some(isNumber));
}

const leftOut = ({ file }: SheetTable): string =>
  `${file}: nothing here that doorpost reads; the sheet was left out.`;

/** What a table's rows say, before units are chosen and devices told apart. */
interface Gathered {
  readonly taken: TakenTable;
  readonly rows: readonly PersonRow[];
  readonly readings: RawReading[];
  readonly markers: readonly MadeRow[];
  readonly shoes: readonly MadeRow[];
  readonly mentions: Mention[];
  readonly remarks: readonly Remark[];
  readonly devices: DeviceRows;
  readonly firstDevice: Map<GridRow, MadeRow>;
}

function gathered(
  taken: TakenTable,
  rows: readonly PersonRow[],
  devices: DeviceRows,
  children: ReadonlyMap<string, MadeRow['cells']>,
): Gathered {
  const { columns } = taken;
  const visits = visitDates(taken);
  const readings: RawReading[] = [];
  const markers: MadeRow[] = [];
  const shoes = new Map<string, MadeRow>();
  const mentions: Mention[] = [];
  const remarks: Remark[] = [];
  const speaks = columns.some(
    (c) =>
      c.meaning?.kind === 'reading' ||
      c.meaning?.kind === 'device' ||
      (c.meaning?.kind === 'field' && /^(device|marker|long|shoe)\./.test(c.meaning.field)),
  );
  const measured = columns.filter(isMeasured);
  const sides = fieldColumns(columns, 'side');
  const ages = fieldColumns(columns, 'visit.age');
  const recorded = columns.filter((c) => isMeasured(c) || isOfDevices(c));
  for (const { row, person, why } of rows) {
    if (person === null || person.birthDate === null) {
      if (why !== '') taken.refuse(row, whoColumn(columns), why, 'a child with a birth date');
      taken.left.settle(row, recorded, 'refused');
      continue;
    }
    if (!speaks) continue;
    const dateFor = (column: Column) => visits(row, column, person.birthDate);
    remarks.push(...remarksIn(taken, row, person, dateFor));
    readings.push(...readingsIn(taken, row, person, dateFor));
    for (const [column, shoe] of shoesIn(taken, row, person, dateFor)) keepLatest(taken, shoes, column, shoe);
    const visit = visits(row, null, person.birthDate);
    const { affected_side: conditionSide = '', conditions = '' } = children.get(person.id) ?? {};
    const isClubfoot = /clubfoot/.test(conditions) && !/hip-dysplasia/.test(conditions);
    mentions.push({ row, person, visit, conditionSide, isClubfoot });
    markers.push(...markersIn(taken, row, person.id, dateFor));
    taken.left.settle(row, [
      ...measured,
      ...sides.filter((c) => sideIn(cellOf(row, c)) === null),
      ...ages.filter((c) => cellAge(cellOf(row, c), c.heading) === null),
    ]);
  }
  return {
    taken,
    rows,
    readings,
    markers,
    shoes: [...shoes.values()],
    mentions,
    remarks,
    devices,
    firstDevice: new Map(),
  };
}

/** One cell beside the sizes of several days is one shoe. */
function keepLatest(taken: TakenTable, shoes: Map<string, MadeRow>, column: Column, shoe: MadeRow): void {
  const cell = `${shoe.row}/${column.index}/${shoe.cells.entered}`;
  const before = shoes.get(cell)?.cells.date;
  if (before === undefined || before < shoe.cells.date) shoes.set(cell, shoe);
  if (before !== undefined && before !== shoe.cells.date)
    taken.tell(`"${column.heading}" is one cell beside several days; it is taken as of the latest.`);
}

const whoColumn = (columns: readonly Column[]): Column | null =>
  columns.find(
    (c) => c.meaning?.kind === 'field' && /^child\.(id|name|last_name|first_name)$/.test(c.meaning.field),
  ) ?? null;

/**
 * Devices of all tables together, earliest visit first: a device without a date of its own is the one cast before,
 * in whichever tab and line that stands, and only without one is the first visit that names it its cast.
 */
function addDevices(all: readonly Gathered[]): void {
  const mentions = all.flatMap((table) => table.mentions.map((mention) => ({ table, mention })));
  for (const table of all) table.mentions.length = 0;
  mentions.sort((a, b) => compareText(a.mention.visit ?? '', b.mention.visit ?? ''));
  for (const { table, mention } of mentions) {
    const first = table.devices.add(mention);
    if (first) table.firstDevice.set(mention.row, first);
  }
}
const compareText = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

function madeTables(
  { taken, rows, readings, markers, shoes, remarks, devices, firstDevice }: Gathered,
  unit: Unit | null,
  register: DeviceRegister,
  children: ChildRows,
): { tables: TextTable[]; readings: SheetReadings } {
  const { file } = taken;
  const units = chooseUnits(valueColumns(readings), taken, unit);
  const made = measurementRecords(taken, readings, units);
  keepOthers(taken, rows, made, firstDevice, children);
  tellUnheard(taken, remarks, register);
  const of = (table: TableName, rows: readonly MadeRow[]) =>
    rows.length > 0 ? [madeTable(file, table, rows)] : [];
  const tables = [
    ...of('measurements', shoes),
    ...of('devices', devices.rows),
    madeTable(file, 'events', eventsOf(devices.events, remarks, register), EVENT_COLUMNS),
    ...of('markers', markers),
  ];
  return { tables, readings: { file, records: made.records } };
}
const EVENT_COLUMNS = columns.events.map(({ name }) => name);

/** Holds nothing of the sheet, which is let go before they are read. */
const eventsOf = (
  said: readonly MadeRow[],
  remarks: readonly Remark[],
  register: DeviceRegister,
): Iterable<MadeRow> => ({
  *[Symbol.iterator]() {
    yield* said;
    yield* remarkEvents(remarks, register);
  },
});
