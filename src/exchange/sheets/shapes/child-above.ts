import { foldText } from '../../headings/fold-words.js';
import { headingCandidates } from '../../headings/heading-meaning.js';
import { wordSet } from '../../headings/phrase-table.js';
import { cellDate } from '../cell-date.js';
import type { GridRow, SheetTable } from '../grid.js';

const HEADINGS: Readonly<Record<string, string>> = {
  'child.id': 'Patient ID',
  'child.name': 'Name',
  'child.first_name': 'First name',
  'child.last_name': 'Surname',
  'child.birth_date': 'Date of birth',
  'child.sex': 'Sex',
  'child.conditions': 'Diagnosis',
  'child.latex_alert': 'Latex',
  'child.insensate_skin': 'Sensation',
  'child.contact': 'Contact',
  'child.clinician': 'Clinician',
};
const sexWords = new Set(
  [...wordSet((v) => v.female), ...wordSet((v) => v.male)].filter((word) => word.length >= 3),
);

/**
 * A sheet of one child: who it is stands in the lines above ('Name: ...', 'geb. 03.04.2017') or is the sheet's own
 * name. What is said there becomes columns with the same words in every row. A table that says whose its rows are is
 * left as it is.
 */
export function withChildAbove(table: SheetTable, above: readonly GridRow[], sheet: string): SheetTable {
  if (table.headings.some(saysWho)) return table;
  const said = new Map<string, string>();
  for (const { cells } of above)
    for (const [field, value] of saidIn(cells)) if (!said.has(field)) said.set(field, value);
  const named = [...said.keys()].some((field) => /^child\.(id|name|first_name|last_name)$/.test(field));
  if (!named && isName(sheet)) said.set('child.name', sheet);
  if (![...said.keys()].some((field) => /^child\.(id|name|first_name|last_name|birth_date)$/.test(field)))
    return table;
  const columns = [...said].filter(([field]) => Object.hasOwn(HEADINGS, field));
  const width = Math.max(table.headings.length, ...table.rows.map(({ cells }) => cells.length));
  const pad = (cells: readonly string[]) => Array.from({ length: width }, (_, at) => cells[at] ?? '');
  return {
    ...table,
    headings: [...pad(table.headings), ...columns.map(([field]) => HEADINGS[field])],
    rows: table.rows.map(({ row, cells }) => ({
      row,
      cells: [...pad(cells), ...columns.map(([, value]) => value)],
    })),
  };
}

const fieldOf = (text: string): string | null => {
  const best = text === '' ? undefined : headingCandidates(text)[0];
  return best?.meaning.kind === 'field' && best.meaning.field.startsWith('child.') && best.strength >= 0.6
    ? best.meaning.field
    : null;
};
const saysWho = (heading: string): boolean => {
  const field = fieldOf(heading);
  return field !== null && /^child\.(id|name|first_name|last_name|birth_date)$/.test(field);
};

/** 'Name: Ivy Grant', 'geb. 03.04.2017', a label with its value in the next cell, a word for the sex alone. */
function saidIn(cells: readonly string[]): [field: string, value: string][] {
  const said: [string, string][] = [];
  for (let at = 0; at < cells.length; at++) {
    const parts = cells[at].split(/[,;]\s+(?=\p{L}[^,;]*[:.]\s*\S)|\s{3,}/u);
    for (const part of parts) {
      const labelled = /^([^:=]{1,40})[:=]\s*(\S.*)$/.exec(part) ?? /^(\D{2,30}?)\s+(\d.*)$/.exec(part);
      const label = labelled === null ? null : fieldOf(labelled[1]);
      if (labelled && label !== null && fits(label, labelled[2])) said.push([label, labelled[2].trim()]);
      else if (sexWords.has(foldText(part))) said.push(['child.sex', part.trim()]);
    }
    const next = cells.slice(at + 1).findIndex((cell) => cell !== '');
    const alone = fieldOf(cells[at].replace(/[:=]\s*$/, ''));
    if (
      alone !== null &&
      next !== -1 &&
      fits(alone, cells[at + 1 + next]) &&
      fieldOf(cells[at + 1 + next]) === null
    )
      said.push([alone, cells[at + 1 + next]]);
  }
  return said;
}

const fits = (field: string, value: string): boolean =>
  field === 'child.birth_date'
    ? cellDate(value, '2099-12-31') !== null
    : field === 'child.id' || /\p{L}/u.test(value);

/** Two to four words of letters that no heading has: not 'Sheet1', 'Measurements', 'Clinic 2025'. */
function isName(sheet: string): boolean {
  const words = sheet.trim().split(/[\s,_]+/);
  return (
    words.length >= 2 &&
    words.length <= 4 &&
    words.every((word) => /^\p{L}[\p{L}.'’-]*$/u.test(word)) &&
    (headingCandidates(sheet)[0]?.strength ?? 0) < 0.45
  );
}
