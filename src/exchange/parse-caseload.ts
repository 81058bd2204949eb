import { readFile } from 'node:fs/promises';
import { DoorpostError } from '../errors.js';
import { type Caseload, type CaseloadPart, caseloadParts } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import { familyFacts } from '../rules/family-facts.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import { isOwnTable, tableOf, unreadColumns } from './csv/own-table.js';
import { readChildren } from './csv/read-children.js';
import type { DateOrder } from './csv/read-date.js';
import { readDevices } from './csv/read-devices.js';
import { readMeasurements } from './csv/read-measurements.js';
import { readEvents, readJobs, readMarkers, readSkinChecks } from './csv/read-records.js';
import type { TableResult } from './csv/read-rows.js';
import { readTable, type TextRow, type TextTable } from './csv/read-table.js';
import type { ReadSettings } from './csv/row-reader.js';
import { fhirTables } from './fhir/fhir-tables.js';
import type { RefusedRow } from './refused-row.js';
import { findTables } from './sheets/find-tables.js';
import { bookOf, type Grid } from './sheets/grid.js';
import type { SheetReadings } from './sheets/measurement-records.js';
import { type Answers, Asker, type Question } from './sheets/questions.js';
import { withCodesInWords } from './sheets/shapes/code-lists.js';
import { type ColumnShown, type SheetResult, toTables } from './sheets/to-tables.js';
import { readWorkbook } from './xlsx/read-workbook.js';

export interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}
/** Read where it lies, a piece after another. */
export interface FileOnDisk {
  readonly name: string;
  readonly path: string;
}

export interface ParseOptions {
  /** Dates after it are refused. */
  readonly today: IsoDate;
  readonly dateOrder?: DateOrder;
  readonly lengthUnit?: 'mm' | 'cm' | 'inch' | null;
  /** Families that devices may have; the built-in ones by default. */
  readonly rules?: FitRules;
  /** The clinic's own reading of its sheets: what it answered when it was asked. */
  readonly answers?: Answers;
  /** Take what is probable without asking. */
  readonly takeProbable?: boolean;
}

export interface ParsedCaseload extends Said {
  readonly caseload: Caseload;
}

/** What was read beside the records. */
export interface Said {
  readonly refused: readonly RefusedRow[];
  /** What a person should know though nothing was refused: columns kept but not read, words read as others. */
  readonly notices: readonly string[];
  /** What only the clinic can say, asked once a column or word; what waits for it was not taken. */
  readonly questions: readonly Question[];
  /** What each column of the clinic's own sheets was taken for. */
  readonly columns: readonly ColumnShown[];
  /** Readings that were written with a doubt ('~163', '66?') and count for less. */
  readonly doubtful: readonly RefusedRow[];
  /** Answers and likely answers that were used, by the question's id. */
  readonly used: Answers;
}

type Take = <P extends CaseloadPart>(part: P, record: Caseload[P][number]) => void;

/**
 * A caseload out of files: tables (.csv, .txt, .tsv, .xlsx) or FHIR R4 (.json, .ndjson).
 * Good rows are taken and bad ones listed with what is accepted. Throws only where a file is no table at all.
 */
export async function parseCaseload(
  files: readonly (NamedFile | FileOnDisk)[],
  options: ParseOptions,
): Promise<ParsedCaseload> {
  const caseload = Object.fromEntries(caseloadParts.map((part) => [part, [] as unknown[]]));
  const said = await readRecords(files, options, (part, record) => void caseload[part].push(record));
  return { caseload: caseload as unknown as Caseload, ...said };
}

/**
 * The same, each record taken as it is read, what it belongs to before it. Of our own tables nothing is held but the
 * keys of rows, children's birth dates and the devices; of a clinic's own sheets, workbooks and FHIR everything is.
 */
export async function readRecords(
  files: readonly (NamedFile | FileOnDisk)[],
  options: ParseOptions,
  take: Take,
): Promise<Said> {
  const rules = options.rules ?? loadRules();
  const { today, dateOrder = 'refuse', lengthUnit = null } = options;
  const settings = { today, dateOrder, lengthUnit, rules, families: familyFacts(rules) };
  const notices: string[] = [];
  const refused: RefusedRow[] = [];
  const asker = new Asker(options.answers ?? {}, options.takeProbable ?? false);
  const { own, made } = understood(await readFiles(files, notices, refused), options, rules, asker, notices);
  const parsed = readTables([...own, ...made.tables], made.readings, settings, take);
  return {
    refused: [...refused, ...made.refused, ...parsed.refused],
    notices: [...notices, ...made.notices, ...parsed.notices],
    questions: asker.questions,
    columns: made.columns,
    doubtful: made.doubtful,
    used: Object.fromEntries(asker.used),
  };
}

async function readFiles(
  files: readonly (NamedFile | FileOnDisk)[],
  notices: string[],
  refused: RefusedRow[],
): Promise<TextTable[]> {
  const tables: TextTable[] = [];
  for (const file of files) {
    const whole = async () => ('path' in file ? new Uint8Array(await readFile(file.path)) : file.bytes);
    if (/\.xlsx$/i.test(file.name)) tables.push(...(await readWorkbook(file.name, await whole())));
    else if (/\.(json|ndjson)$/i.test(file.name)) {
      const fhir = fhirTables(file.name, await whole());
      tables.push(...fhir.tables);
      notices.push(...fhir.notices);
      refused.push(...fhir.refused);
    } else tables.push(readTable(file.name, 'path' in file ? file : file.bytes));
  }
  return tables;
}

/** Our own tables, and those made of the clinic's sheets; the lines of a sheet are let go with this function. */
function understood(
  tables: TextTable[],
  options: ParseOptions,
  rules: FitRules,
  asker: Asker,
  notices: string[],
): { own: readonly TextTable[]; made: SheetResult } {
  const own = tables.filter(isOwnTable);
  const grids = tables.filter((table) => !own.includes(table)).map(gridOf);
  const books = [...new Set(grids.map(bookOf))];
  const sheets = books
    .flatMap((book) => withCodesInWords(grids.filter((grid) => bookOf(grid) === book)))
    .flatMap((grid) => findTables(grid, notices));
  grids.length = 0;
  if (own.length === 0 && sheets.length === 0 && tables.length > 0) throw noTable(tables[0]);
  // Whoever called still has the list in a register: the lines would stay until all tables are read.
  tables.length = 0;
  const { today } = options;
  const settings = { today, order: orderOf(options), unit: options.lengthUnit ?? null, rules };
  return { own, made: toTables(sheets, settings, asker) };
}

const orderOf = ({ dateOrder }: ParseOptions) =>
  dateOrder === 'dmy' || dateOrder === 'mdy' ? dateOrder : null;

function noTable(text: TextTable): DoorpostError {
  return new DoorpostError('invalid-file', `${text.file} has no line of headings doorpost understands`, {
    file: text.file,
    row: 1,
    given: text.headings.join(', ').slice(0, 200),
    accepted: `a list with a line of headings, such as name, date of birth, date seen, foot length left; 'doorpost columns' lists doorpost's own`,
  });
}

function gridOf(text: TextTable): Grid {
  const first = { row: text.headingRow ?? 1, cells: text.headings };
  return {
    file: text.file,
    sheet: text.sheet,
    separator: text.separator,
    rows: [first, ...linesOf(text)],
    merged: text.merged ?? [],
  };
}

/** A clinic's own list is looked at whole before its first line is read: a kilobyte a line. */
export const MOST_LINES = 150_000;

function linesOf(text: TextTable): TextRow[] {
  const lines: TextRow[] = [];
  for (const line of text.rows) {
    if (lines.push(line) > MOST_LINES)
      throw new DoorpostError('too-large', `${text.file} has more than ${MOST_LINES} lines`, {
        file: text.file,
        accepted: `at most ${MOST_LINES} lines of a clinic's own list: send it in parts, or as doorpost's own tables`,
      });
  }
  return lines;
}

/** Tables in their order of reference: children, then what belongs to them, then what belongs to devices. */
function readTables(
  tables: readonly TextTable[],
  readings: readonly SheetReadings[],
  given: Omit<ReadSettings, 'birthDateOf' | 'deviceOf'>,
  take: Take,
): Pick<Said, 'refused' | 'notices'> {
  const named = tables.map((text) => ({ text, table: tableOf(text) }));
  const refused: RefusedRow[] = [];
  const notices: string[] = [];
  const birthDates = new Map<string, IsoDate>();
  const byId = new Map<string, Device>();
  const settings: ReadSettings = {
    ...given,
    birthDateOf: (id) => birthDates.get(id),
    deviceOf: (id) => byId.get(id),
  };
  const readAll = <P extends CaseloadPart>(
    part: P,
    read: (text: TextTable, settings: ReadSettings) => TableResult<Caseload[P][number]>,
    { made = [], note }: Beside<Caseload[P][number]> = {},
  ): void => {
    const table = part === 'skinChecks' ? 'skin' : part;
    const sources = named.flatMap(({ text, table: of }): Source<Caseload[P][number]>[] => {
      if (of !== table) return [];
      const result = read(text, settings);
      const ended = () => {
        refused.push(...result.refused);
        notices.push(...result.notices, ...unreadColumns(table, text));
      };
      return [{ file: text.file, records: result.records, ended }];
    });
    for (const record of once([...sources, ...made], notices)) {
      note?.(record);
      take(part, record);
    }
  };
  readAll('children', readChildren, { note: ({ id, birthDate }) => birthDates.set(id, birthDate) });
  const made = readings.map(({ file, records }) => {
    const taken = records.filter(({ childId }) => birthDates.has(childId));
    const lost = records.length - taken.length;
    if (lost > 0) notices.push(`${file}: ${lost} readings of children that were refused were left out too.`);
    return { file, records: taken };
  });
  readAll('measurements', readMeasurements, { made });
  readAll('markers', readMarkers);
  readAll('devices', readDevices, { note: (device) => byId.set(device.id, device) });
  readAll('events', readEvents);
  readAll('jobs', readJobs);
  readAll('skinChecks', readSkinChecks);
  return { refused, notices };
}

interface Source<T> {
  readonly file: string;
  readonly records: Iterable<T>;
  readonly ended?: () => void;
}

/** Records beside those of the tables, and what is to be remembered of each. */
interface Beside<T> {
  readonly made?: readonly Source<T>[];
  readonly note?: (record: T) => void;
}

/** Records of several files, each once by its id; in one file it stands once already. */
function* once<T extends { readonly id: string }>(
  sources: readonly Source<T>[],
  notices: string[],
): Generator<T> {
  const ids = sources.length > 1 ? new Set<string>() : null;
  const repeats: string[] = [];
  for (const { file, records, ended } of sources) {
    let again = 0;
    for (const record of records) {
      if (ids?.has(record.id)) again++;
      else {
        ids?.add(record.id);
        yield record;
      }
    }
    ended?.();
    if (again > 0)
      repeats.push(`${file}: ${again} with an id already read from a file before; the first is kept.`);
  }
  notices.push(...repeats);
}
