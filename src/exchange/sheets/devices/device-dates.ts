import { addDaysIso, type IsoDate } from '../../../records/dates.js';
import { foldText } from '../../headings/fold-words.js';
import { wordSet } from '../../headings/phrase-table.js';
import type { FieldId } from '../../headings/vocabulary.js';
import { headingDate } from '../../headings/written-date.js';
import { cellDate, dateAtAge, saidAge } from '../cell-date.js';
import { cellDevices } from '../cell-device.js';
import { dayAlone, MONTH_YEAR } from '../cell-device-dates.js';
import { noWords, wordIn, yesWords } from '../cell-words.js';
import { dateOf, roughDays, sharedOrder } from '../choose-dates.js';
import { type Column, cellOf } from '../column.js';
import type { GridRow } from '../grid.js';
import { fieldColumns } from '../sheet-rows.js';
import type { TakenTable } from '../taken-table.js';
import type { Mention } from './device-register.js';
import { type OneDevice, slot } from './device-sheet.js';

const stockWords = wordSet((v) => v.stock);

/** Days from cast to fitting where a sheet has only the fitting: about three weeks (common practice, no source). */
export const DAYS_TO_FITTING = 21;

/** A date of a device out of its column; 'unread' where it was refused. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: what a cell of a date can say, one case after the other
export function dateIn(
  taken: TakenTable,
  row: GridRow,
  field: FieldId,
  of: OneDevice,
  { visit, person }: Pick<Mention, 'visit' | 'person'>,
): { date: IsoDate; column: Column } | 'unread' | null {
  const said = slot(taken, row, field, of);
  if (said === null) return null;
  // 'Cast? yes' on the day of a visit is that day.
  const word = foldText(said.text);
  if (noWords.has(word) || stockWords.has(word)) return null;
  if (yesWords.has(word)) return visit === null ? null : { date: visit, column: said.column };
  const age = cellDate(said.text, taken.desk.today) === null ? saidAge(said.text) : null;
  if (age !== null && person.birthDate !== null) {
    taken.tell(`ages under "${said.column.heading}" are read as days from the birth date.`);
    return { date: dateAtAge(person.birthDate, age), column: said.column };
  }
  const own = dayOfOne(
    said.text,
    of,
    cellDevices(cellOf(row, of.column)).map((d) => ({ word: foldText(d.said) })),
  );
  const date = own === null ? null : dateOf(own, taken.orders.get(said.column.index), taken.desk.today);
  if (date === null) return null;
  if ('why' in date) {
    if (field === 'device.fitted_date' && wordIn(said.text, 'deviceStates')) return null;
    taken.refuse(row, said.column, date.why, 'a date such as 2024-03-17 or 17.03.2024');
    return 'unread';
  }
  if (date.date > taken.desk.today && field === 'device.fitted_date') return null;
  for (const rough of roughDays(said.column, date)) taken.tell(rough);
  return { date: date.date, column: said.column };
}

/** '11-6-2024, hard 30-7-2024', 'TLSO 28/5/24' beside two devices: the day that is of this one, which its words name; null for the other's. */
function dayOfOne(
  text: string,
  { word, after }: OneDevice,
  devices: readonly { readonly word: string }[],
): string | null {
  const others = devices.filter((device) => device.word !== word);
  if (devices.length < 2 || others.length === 0) return dayAlone(text);
  const days = text.split(/[,;]/).flatMap((part) => {
    const day = headingDate(part);
    return day === null ? [] : [{ day, label: foldText(part.replace(day, ' ')) }];
  });
  const ofOthers = days.filter(({ label }) => others.some((device) => names(label, device)));
  const mine = days.find((day) => names(day.label, { word }) && !ofOthers.includes(day));
  const [left, ...more] = days.filter((day) => !ofOthers.includes(day));
  if (mine !== undefined) return mine.day;
  // 'Harness, then a brace': a day without a word is the first one's.
  if (after) return null;
  return ofOthers.length === 0 || more.length > 0 ? dayAlone(text) : (left?.day ?? null);
}

/** 'hard' and 'harde spreidspalk': a word of the one begins like one of the other. */
const names = (label: string, device: { readonly word: string }): boolean =>
  label.split(' ').some((word) => word.length > 3 && ` ${device.word}`.includes(` ${word.slice(0, 5)}`));

/** A day a device's own cell gives, in the order of its column, else of the sheet's other dates. */
export function dateSaid(
  taken: TakenTable,
  column: Column,
  text: string | null,
): { date: IsoDate; column: Column } | null {
  if (text === null) return null;
  const order = taken.orders.get(column.index) ?? sharedOrder(taken.orders);
  // '5/25' behind 'fitted' is May 2025; where the month comes first it can be the 25th.
  const monthYear = MONTH_YEAR.exec(text);
  if (monthYear && order === 'mdy') return null;
  const written = monthYear ? `${monthYear[1]}/20${monthYear[2]}` : text;
  const date = dateOf(written, order, taken.desk.today);
  if (date === null || 'why' in date || date.date > taken.desk.today) return null;
  for (const rough of roughDays(column, date)) taken.tell(rough);
  return { date: date.date, column };
}

/** The days under the columns of casts in a row, whatever they are of. */
export const castsIn = (taken: TakenTable, row: GridRow): IsoDate[] =>
  fieldColumns(taken.columns, 'device.cast_date').flatMap((column) => {
    const date = dateOf(cellOf(row, column), taken.orders.get(column.index), taken.desk.today);
    return date && 'date' in date ? [date.date] : [];
  });

/** A column of days that nobody has said the meaning of yet. */
const dayUnknown = ({ meaning, examples }: Column, { desk }: TakenTable): boolean =>
  meaning === null && examples.length > 0 && examples.every((cell) => cellDate(cell, desk.today) !== null);

/** The cast of a device whose row gives none: some days before its fitting; of the first visit that names it once the clinic agrees. */
export function reckonedCast(
  taken: TakenTable,
  row: GridRow,
  column: Column,
  fitted: IsoDate | null,
  { visit, person }: Pick<Mention, 'visit' | 'person'>,
): IsoDate | null {
  if (fitted === null && visit === null) {
    const accepted = 'a column with the date of the cast, or of the fitting';
    taken.refuse(row, column, 'has no date of its cast or fitting', accepted);
    return null;
  }
  // 'Applied' over days waits for its answer: it may be the very day that is missing.
  if (taken.columns.some((c) => dayUnknown(c, taken))) {
    taken.left.mark(row, column);
    return null;
  }
  if (fitted === null) return castAtVisit(taken, row, column) ? visit : null;
  taken.tell(
    `devices without a date of cast are taken as cast ${DAYS_TO_FITTING} days before their fitting; their forecasts rest on that.`,
  );
  const cast = addDaysIso(fitted, -DAYS_TO_FITTING);
  if (person.birthDate === null || cast >= person.birthDate || fitted < person.birthDate) return cast;
  taken.tell(
    'devices fitted in the first weeks of life are taken as cast on the day of birth, not before it.',
  );
  return person.birthDate;
}

function castAtVisit(taken: TakenTable, row: GridRow, column: Column): boolean {
  const answer = taken.ask({
    id: 'cast:from-visit',
    asks: 'Some devices have no date of cast or fitting. Shall the first visit that names them be taken as their cast?',
    examples: [cellOf(row, column)],
    suggested: 'yes',
    at: [row, column],
  });
  if (answer === 'yes')
    taken.tell(
      'devices without a date of cast or fitting are taken as cast at the first visit that names them; their forecasts rest on that.',
    );
  return answer === 'yes';
}
