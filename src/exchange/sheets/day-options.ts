import { foldText } from '../headings/fold-words.js';
import type { Candidate } from '../headings/heading-meaning.js';
import { type DeviceDay, deviceDays, isField } from '../headings/meaning.js';
import { wordSet } from '../headings/phrase-table.js';
import { spokenWords } from '../headings/read-words.js';
import type { FieldId } from '../headings/vocabulary.js';
import { stageSaid } from './cell-device-dates.js';
import type { SheetTable } from './grid.js';
import { birthColumn, severalOf } from './lines-of-a-child.js';

export interface Scored {
  readonly index: number;
  readonly candidate: Candidate;
  readonly fit: number;
  /** The heading gave another meaning, which the values deny. */
  readonly denied?: boolean;
  score: number;
}

/** 'Scan date' is the cast's; where a child has several and no column says the visit, each is a day of measuring. */
export function isOtherDay(table: SheetTable, option: Scored, all: readonly Scored[]): boolean {
  const says = (s: Scored, field: FieldId) => isField(s.candidate.meaning, field);
  const own = all.filter((s) => s.index === option.index);
  if (!own.some((s) => says(s, 'visit.date')) || !own.some((s) => says(s, 'device.cast_date'))) return false;
  const visit = all.some((s) => s.index !== option.index && says(s, 'visit.date') && s.fit >= 0.75);
  const device = all.some(
    (s) => (s.candidate.meaning.kind === 'device' && !saysStages(table, s.index)) || says(s, 'device.family'),
  );
  const measuring = !visit && !device && severalOf(table, birthColumn(table), option.index);
  return says(option, measuring ? 'device.cast_date' : 'visit.date');
}

/** 'Scan for helmet', 'fitted', 'adj' down a column: what was done at each visit. */
const saysStages = ({ rows }: SheetTable, index: number): boolean => {
  const cells = rows.map((row) => row.cells[index] ?? '').filter((cell) => cell !== '');
  return cells.filter((cell) => !/\d/.test(cell) && stageSaid(cell) !== null).length > cells.length * 0.3;
};

/** 'Anprobe' beside 'Abgabe': the device is tried on one day and given on another. */
const TRY_ON = spokenWords('try-on');
export function isTryOn(
  { headings }: SheetTable,
  { index, candidate }: Scored,
  all: readonly Scored[],
): boolean {
  const fitted = (s: Candidate) => isField(s.meaning, 'device.fitted_date');
  return (
    fitted(candidate) &&
    TRY_ON.has(foldText(headings[index])) &&
    all.some((s) => s.index !== index && fitted(s.candidate) && s.fit >= 0.75)
  );
}

/** 'Bilan initial', 'Baseline' over a size: of the first visit where a day stands under the same words, else of a day nobody knows. */
const firstWords = wordSet((v) => v.firstVisit);
export const isFirst = (heading: string): boolean =>
  [...firstWords].some((phrase) => ` ${foldText(heading)} `.includes(` ${phrase} `));
export const firstDated = ({ headings }: SheetTable, index: number, all: readonly Scored[]): boolean =>
  isFirst(headings[index]) &&
  all.some(
    (s) =>
      s.index < index &&
      isField(s.candidate.meaning, 'visit.date') &&
      s.fit >= 0.75 &&
      isFirst(headings[s.index]),
  );
export const saysFirst = ({ meaning }: Candidate, heading: string, dated: boolean): boolean =>
  isFirst(heading) && meaning.kind === (dated ? 'keep' : 'reading');

/** 'Ht at scan' beside 'Scan' and 'Last clinic': where a word is a visit's and the cast's, a column of casts decides. */
export function isOfDeviceDay({ index, candidate }: Scored, all: readonly Scored[]): boolean {
  const { meaning } = candidate;
  if (meaning.kind !== 'reading' || meaning.at !== null) return false;
  return all.some(
    ({ index: other, candidate: { meaning: m } }) =>
      other === index &&
      m.kind === 'reading' &&
      m.at !== null &&
      m.measure === meaning.measure &&
      all.some((s) => isField(s.candidate.meaning, deviceDays[m.at as DeviceDay]) && s.fit >= 0.75),
  );
}
