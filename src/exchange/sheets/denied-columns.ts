import { foldText, foldWords } from '../headings/fold-words.js';
import { isField, type Meaning } from '../headings/meaning.js';
import { spokenWords } from '../headings/read-words.js';
import { isWeekdays } from './cell-weekdays.js';
import type { Scored } from './day-options.js';
import type { SheetTable } from './grid.js';
import { LOOK_AT } from './lines-of-a-child.js';
import { namesAgree, nearlySame } from './people.js';

/** Of a column's values so many may contradict its heading by slips. */
const SLIPS = 0.3;

const jobWords = spokenWords('job');
/** Words that are said of an order and not of a device worn, and those that are said of both. */
const jobDone = spokenWords('job done');
const jobGoing = spokenWords('job going');

/** A meaning that the heading gives and the values, or the columns beside it, deny: such a column is kept as it is, and told. */
export function isDenied(
  table: SheetTable,
  { index, candidate: { meaning } }: Scored,
  cells: readonly string[],
  scored: readonly Scored[],
): boolean {
  if (cells.length === 0) return false;
  if (isField(meaning, 'child.transport_days'))
    return cells.filter((cell) => !isWeekdays(cell)).length > cells.length / 2;
  if (isField(meaning, 'child.id')) return isOfNobody(table, index, scored);
  return isStatus(meaning) && isOfJobs(table, index, cells);
}

const isStatus = (m: Meaning): boolean => isField(m, 'device.status') || isField(m, 'child.status');

/** 'Closed', 'Ready' beside the number of the order: the order's state. */
function isOfJobs({ headings }: SheetTable, index: number, cells: readonly string[]): boolean {
  const beside = headings.some((heading, at) => at !== index && isJob(heading));
  if (!beside && !isJob(headings[index])) return false;
  const states = cells.map(firstWords);
  const known = states.filter((state) => jobDone.has(state) || jobGoing.has(state));
  return states.some((state) => jobDone.has(state)) && known.length >= cells.length * (1 - SLIPS);
}
const isJob = (heading: string): boolean => foldWords(heading).some((word) => jobWords.has(word));
/** 'Open - on shelf' as well. */
const firstWords = (cell: string): string => foldText(cell.split(/\s[–—-]\s|[,;(:]/)[0]);

/** Whoever has a number has one name, and whoever has a name and birth date has one number: else it is nobody's number. */
function isOfNobody(table: SheetTable, index: number, scored: readonly Scored[]): boolean {
  const best = (field: 'child.name' | 'child.first_name' | 'child.birth_date') =>
    scored
      .filter((s) => s.index !== index && isField(s.candidate.meaning, field) && s.fit >= 0.75)
      .sort((a, b) => b.score - a.score)[0]?.index;
  const whole = best('child.name');
  const name = whole ?? best('child.first_name');
  if (name === undefined) return false;
  const birth = best('child.birth_date');
  const lines = table.rows.slice(0, LOOK_AT).flatMap(({ cells }) => {
    const number = foldText(cells[index] ?? '');
    const called = (cells[name] ?? '').trim();
    return number === '' || called === ''
      ? []
      : [{ number, called, born: birth === undefined ? '' : (cells[birth] ?? '') }];
  });
  const names = grouped(lines.map(({ number, called }) => [number, called]));
  if (
    often(names, (called) => called.some((one) => !namesAgree(one, called[0]) && !nearlySame(one, called[0])))
  )
    return true;
  if (whole === undefined) return false;
  const numbers = grouped(lines.map(({ number, called, born }) => [`${foldText(called)} ${born}`, number]));
  const differ = (of: readonly string[]) => of.some((one) => one !== of[0]);
  // Without births two children can have one name.
  return often(numbers, differ) && (birth !== undefined || numbers.filter(differ).length > 1);
}

/** What stands beside each value that stands more than once. */
function grouped(pairs: readonly (readonly [string, string])[]): string[][] {
  const groups = new Map<string, string[]>();
  for (const [key, value] of pairs) groups.set(key, [...(groups.get(key) ?? []), value]);
  return [...groups.values()].filter(({ length }) => length > 1);
}

/** More than slips: one of several is one. */
function often<T>(all: readonly T[], test: (one: T) => boolean): boolean {
  const { length } = all.filter(test);
  return length > all.length * SLIPS && (length > 1 || all.length === 1);
}
