import { foldText } from '../../headings/fold-words.js';
import { fieldHeaded, headingStrength } from '../../headings/heading-meaning.js';
import { birthYear, isDay } from '../cell-date.js';
import { sexWords } from '../cell-words.js';
import type { GridRow, SheetTable } from '../grid.js';

/** Said of a child above its table. */
interface Said {
  readonly field: string;
  /** As the sheet words it, so that its language still speaks; a plain word where it gives none. */
  readonly heading: string;
  readonly value: string;
}
const DEVICE = 'device.family';
const WHO = /^child\.(id|name|first_name|last_name|birth_date)$/;

/**
 * A sheet of one child: who it is stands in the lines above ('Name: ...', 'geb. 03.04.2017') or is the sheet's own
 * name. What is said there becomes columns with the same words in every row. A table that says whose its rows are is
 * left as it is. `child` are the lines that named the child of a table further up: the tables below are of the same.
 */
export function withChildAbove(
  table: SheetTable,
  above: readonly GridRow[],
  sheet: string,
  child: readonly GridRow[],
): SheetTable {
  if (table.headings.some(saysWho)) return table;
  const said = saidAbove(above, sheet, child);
  if (![...said.keys()].some((field) => WHO.test(field))) return table;
  const columns = [...said.values()];
  const width = Math.max(table.headings.length, ...table.rows.map(({ cells }) => cells.length));
  const pad = (cells: readonly string[]) => Array.from({ length: width }, (_, at) => cells[at] ?? '');
  return {
    ...table,
    headings: [...pad(table.headings), ...columns.map(({ heading }) => heading)],
    rows: table.rows.map(({ row, cells }) => ({
      row,
      cells: [...pad(cells), ...columns.map(({ value }) => value)],
    })),
  };
}

/** What is said of the child, by field: of the lines further up only who it is, not its devices. */
function saidAbove(
  above: readonly GridRow[],
  sheet: string,
  child: readonly GridRow[],
): ReadonlyMap<string, Said> {
  const said = new Map<string, Said>();
  const further = child === above ? [] : child;
  for (const one of further.flatMap(({ cells }) => saidIn(cells)))
    if (one.field.startsWith('child.') && !said.has(one.field)) said.set(one.field, one);
  for (const one of above.flatMap(({ cells }) => saidIn(cells))) {
    const before = said.get(one.field);
    if (before === undefined) said.set(one.field, one);
    // A second line of devices is another device, not the first again.
    else if (one.field === DEVICE && !before.value.includes(one.value))
      said.set(DEVICE, { ...before, value: `${before.value} + ${one.value}` });
  }
  const fields = [...said.keys()];
  if (fields.some((field) => WHO.test(field) && field !== 'child.birth_date')) return said;
  const name = nameAlone([...child, ...above], sheet, said.has('child.birth_date'));
  if (name !== null) said.set('child.name', { field: 'child.name', heading: 'Name', value: name });
  return said;
}

/** A name alone on a line beside a birth date, else the sheet's own. */
function nameAlone(lines: readonly GridRow[], sheet: string, born: boolean): string | null {
  const alone = lines.flatMap(({ cells }) => {
    const filled = cells.filter((cell) => cell !== '');
    return filled.length === 1 ? filled : [];
  });
  return [...(born ? alone : []), sheet].find(isName) ?? null;
}

/** Whether a line says whose the lines below it are: 'Name: ...', with a label. */
export const namesChild = (cells: readonly string[]): boolean =>
  saidIn(cells).some(({ field }) => WHO.test(field));

/** 'Orthoses: both KAFO, cast 04/04/2024': lines of one cell below the visits of a child named above. */
export const devicesBelow = (rows: readonly GridRow[], child: readonly GridRow[]): GridRow[] =>
  child.length === 0 ? [] : rows.filter(({ cells }) => saysDevice(cells));
const saysDevice = (cells: readonly string[]): boolean =>
  cells.filter((cell) => cell !== '').length === 1 && saidIn(cells).some(({ field }) => field === DEVICE);

const fieldOf = (text: string): string | null => {
  const field = fieldHeaded(text, 0.6);
  return /^(?:child\.|device\.(?:family|cast_date|fitted_date)$)/.test(field) ? field : null;
};
/** 'Device' | 'Side' are headings side by side; 'Device' | 'AFO' says which. */
const heads = (text: string): boolean =>
  fieldOf(text) !== null ||
  /^(?:side$|device)/.test(fieldHeaded(text, 0.95)) ||
  (text.length > 2 && fieldHeaded(text, 0.75).startsWith('visit.'));
export const saysWho = (heading: string): boolean => {
  const field = fieldOf(heading);
  return field !== null && WHO.test(field);
};

/** 'Name: Ivy Grant', 'geb. 03.04.2017', a label with its value in the next cell, a word for the sex alone. */
function saidIn(cells: readonly string[]): Said[] {
  const across = personAcross(cells);
  if (across.length > 0) return across;
  const said: Said[] = [];
  for (let at = 0; at < cells.length; at++) {
    const person = personIn(cells[at]);
    if (person.length > 1) {
      said.push(...person);
      continue;
    }
    const parts = cells[at].split(/[,;]\s+(?=\p{L}[^,;]*[:.]\s*\S)|\s{3,}/u);
    for (const part of parts) {
      const one = saidInPart(part, cells, at, said);
      if (one) said.push(one);
    }
    said.push(...saidBeside(cells, at));
  }
  return said;
}

/** A label with its value, or a word for the sex alone; `before` is what the line has said so far. */
function saidInPart(
  part: string,
  cells: readonly string[],
  at: number,
  before: readonly Said[],
): Said | null {
  const labelled = /^([^:=]{1,40})[:=]\s*(\S.*)$/.exec(part) ?? /^(\D{2,30}?)\s+(\d.*)$/.exec(part);
  const field = labelled === null ? null : fieldOf(labelled[1]);
  if (labelled && field !== null && fits(field, labelled[2]))
    return { field, heading: labelled[1].trim(), value: withRest(field, labelled[2], cells, at) };
  // A letter is the sex only beside a birth date.
  const isSex =
    sexWords.has(foldText(part)) &&
    (foldText(part).length >= 3 || before.some((one) => one.field === 'child.birth_date'));
  return isSex ? { field: 'child.sex', heading: 'Sex', value: part.trim() } : null;
}

/** A label with its value in the next filled cell. */
function saidBeside(cells: readonly string[], at: number): Said[] {
  const label = cells[at].replace(/[:=]\s*$/, '');
  const labels = label !== cells[at];
  const field = fieldOf(label);
  const next = cells.slice(at + 1).find((cell) => cell !== '');
  if (field === null || next === undefined || !fits(field, next)) return [];
  if (labels ? /[:=]\s*$/.test(next) : heads(next) && !(field === 'child.id' && /\d/.test(next))) return [];
  return [
    {
      field,
      heading: label.trim(),
      value: withRest(field, next, cells, cells.indexOf(next, at + 1)),
    },
  ];
}

/** A day or a year among other words, and what stands before and after it. */
const AROUND_BIRTH =
  /^([^:=]{3,80}?)\s*((?<!\d)(?:(?:19|20)\d\d|\d{1,4}\D{1,12}\d{1,4}(?:\D{1,3}\d{2,4})?))\)?(?:(?:\s{2,}|\s*[,;–-]\s*)(\p{L}.{1,80}))?$/u;
/** 'b 2012', '*03.05.2019', 'g. 3.5.19', 'n. 2012': short for born. */
const BORN = /^[*bgn]$/i;

/**
 * 'K-014 Milo Farr, DOB 03/05/2019', 'Farr, Milo *03.05.2019, Diparese': a number, a name, a birth date and a diagnosis, of
 * which the birth date alone has a label.
 */
function personIn(cell: string): Said[] {
  const [, before, birth, diagnosis = ''] = AROUND_BIRTH.exec(cell.trim()) ?? [];
  if (before === undefined || !fits('child.birth_date', birth)) return [];
  const words = [...before.replace(/[:.]$/, '').matchAll(/\*|[\p{L}.]+/gu)];
  const labels = [1, 2, 3].flatMap((n) => {
    const at = words.at(-n)?.index;
    return at === undefined || at === 0 ? [] : [{ at, label: before.slice(at).replace(/[:.]$/, '').trim() }];
  });
  const said = labels.find(({ label }) => BORN.test(label) || fieldOf(label) === 'child.birth_date');
  if (said === undefined) return [];
  const who = before.slice(0, said.at).replace(/[\s,;(–-]+$/, '');
  const number = /^(?=\S*\d)\S+/.exec(who)?.[0] ?? '';
  const name = who.slice(number.length).replace(/^[\s,;–-]+/, '');
  return [
    { field: 'child.id', heading: 'ID', value: number },
    { field: 'child.name', heading: 'Name', value: name },
    { field: 'child.birth_date', heading: BORN.test(said.label) ? 'DOB' : said.label, value: birth },
    { field: 'child.conditions', heading: 'Diagnosis', value: diagnosis },
  ].filter(({ field, value }) => value !== '' && fits(field, value));
}

/** 'Milo Farr' | 'DOB 03/05/2019' | 'M' | 'diplegia': a name, a birth date with its label, and what needs none beside them. */
function personAcross(cells: readonly string[]): Said[] {
  const [name = '', born = '', ...rest] = cells.filter((cell) => cell !== '');
  const person = isName(name) ? personIn(`${name}, ${born}`) : [];
  if (person.length < 2 || rest.some((cell) => /[:=]/.test(cell))) return [];
  const sex = rest.find((cell) => sexWords.has(foldText(cell)));
  const diagnosis = rest.filter((cell) => cell !== sex && /\p{L}/u.test(cell)).join(', ');
  return [
    ...person,
    ...(sex ? [{ field: 'child.sex', heading: 'Sex', value: sex }] : []),
    ...(diagnosis ? [{ field: 'child.conditions', heading: 'Diagnosis', value: diagnosis }] : []),
  ];
}

/** A device goes on in the cells to its right ('L AFO' | 'cast 14/01/2026') up to the next label. */
function withRest(field: string, value: string, cells: readonly string[], at: number): string {
  if (field !== DEVICE) return value.trim();
  const right = cells.slice(at + 1);
  const end = right.findIndex((cell) => cell.includes(':') || fieldOf(cell) !== null);
  const rest = (end === -1 ? right : right.slice(0, end)).filter((cell) => cell !== '');
  return [value.trim(), ...rest].join(', ');
}

const fits = (field: string, value: string): boolean =>
  field === 'child.birth_date' || field.endsWith('_date')
    ? isDay(value) || (field === 'child.birth_date' && birthYear(value) !== null)
    : field === 'child.id' || /\p{L}/u.test(value);

/** Two to four words of letters that no heading has: not 'Sheet1', 'Measurements', 'Clinic 2025'. */
function isName(sheet: string): boolean {
  const words = sheet.trim().split(/[\s,_]+/);
  return (
    words.length >= 2 &&
    words.length <= 4 &&
    words.every((word) => /^\p{L}[\p{L}.'’-]*$/u.test(word)) &&
    headingStrength(sheet) < 0.45
  );
}
