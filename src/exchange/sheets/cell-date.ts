import { addMonths, formatISO, getISODay, parseISO } from 'date-fns';
import { DAYS_A_YEAR, dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import { readDate } from '../csv/read-date.js';
import { foldText, foldWords } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { spokenMeanings } from '../headings/read-words.js';
import { MONTHS, WEEKS, YEARS } from '../headings/written-age.js';
import { monthNumbers } from '../headings/written-date.js';
import { remembered } from '../remembered.js';

/** What a date cell can be read as. */
export interface CellDate {
  readonly dayFirst: IsoDate | null;
  readonly monthFirst: IsoDate | null;
  /** Only a month, or less, is written: the date is its middle. */
  readonly monthOnly: boolean;
  /** 'c. 14/04/2026', '14/04/2026?'. */
  readonly about: boolean;
}

const ABOUT =
  /^(?:[~≈]|(?:c|ca|circa|approx|about|around|env|environ|etwa|ungefähr|vers|hacia|aprox|rond|verso|w\/?c|week (?:of|commencing|van)|woche (?:vom|ab)|semaine du|sem\. du|semana del|settimana del)(?![\p{L}])\.?)\s*(?=\d)/iu;
const WEEKDAY =
  /^(?:mon|tue|wed|thu|fri|sat|sun|mo|di|mi|do|fr|sa|so|lun|mar|mer|jeu|ven|sam|dim|lu|ma|me|je|ve|mie|jue|vie|sab|dom|gio|wo|vr|za|zo)[a-z]*\.?,?\s+(?=\d)/i;

/** The readings of a date cell, or null where it is none. A year of two digits lies in the hundred years up to `today`. */
export function cellDate(cell: string, today: IsoDate): CellDate | null {
  const of = READERS.get(today) ?? remembered((text) => dateIn(text, today));
  if (READERS.size > 3) READERS.clear();
  READERS.set(today, of);
  return of(cell);
}
/** Is this a date at all, of whatever year? */
export const isDay = (cell: string): boolean => cellDate(cell, '2099-12-31') !== null;
const READERS = new Map<IsoDate, (cell: string) => CellDate | null>();

function dateIn(cell: string, today: IsoDate): CellDate | null {
  if (cell.length > 60) return null;
  const sure = cell
    .trim()
    .replace(ABOUT, '')
    .replace(/(?<=\d{2})\s*(?:\?|\(\?\))$/, '');
  if (sure !== cell.trim()) {
    const date = dateIn(sure, today);
    return date === null ? null : { ...date, about: true };
  }
  const text = withoutWeekday(cell.trim())
    .replace(/[T ,]+\d{1,2}[:.]\d{2}(?::\d{2}(?:[.,]\d+)?)?\s*(?:[ap]m|uhr|h|z|[+-]\d{2}:?\d{2})?$/i, '')
    .replace(/\s*(?:uhr|h)$/i, '');
  if (text.length > 30 || !/\d/.test(text)) return null;
  const year = (y: string) => (y.length === 2 ? fullYear(+y, today) : y);
  for (const [form, read] of FORMS) {
    const found = form.exec(text);
    const date = found === null ? undefined : read(found, year);
    if (date !== undefined) return date;
  }
  const other = readDate(text, 'dmy');
  return typeof other === 'string' ? same(other) : null;
}

/** Ways to write a day, a month, a week; undefined where its word names none, and the next may. */
const FORMS: readonly (readonly [
  RegExp,
  (found: RegExpExecArray, year: (y: string) => string) => CellDate | null | undefined,
])[] = [
  [
    /^(\d{1,2})\s*([-/. ])\s*(\d{1,2})\s*[-/. ]\s*(\d{4}|\d{2})\.?$/,
    ([, a, , b, y], year) => both(iso(year(y), b, a), iso(year(y), a, b)),
  ],
  [
    /^(\d{1,2})(?:st|nd|rd|th|er|º|ª|\.)?[-/. ]*(?:de |of )?[-/. ]*(\p{L}+)\.?[-/., ]*(?:de |del )?['’]?(\d{4}|\d{2})$/u,
    ([, day, name, y], year) => same(iso(year(y), month(name), day)),
  ],
  [
    /^(\p{L}+)\.?\s*(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})$/u,
    ([, name, day, y]) => (month(name) > 0 ? same(iso(y, month(name), day)) : undefined),
  ],
  [
    /^(\p{L}+)\.?[-/. ]*(?:de |del )?['’]?(\d{4}|\d{2})$/u,
    ([, name, y], year) => {
      const number = month(name) || Number(SEASONS.get(foldText(name)) ?? 0);
      return number > 0 ? middle(year(y), number) : undefined;
    },
  ],
  // 'KW 14/25', 'wk 14 2025': a week of the calendar.
  [
    /^(?:kw|cw|wk|week|woche|sem|semaine|semana|settimana)\.?\s*(\d{1,2})\s*[-/ ]\s*['’]?(\d{4}|\d{2})$/i,
    ([, week, y], year) => thursdayOf(+week, +year(y)),
  ],
  [/^(\d{1,2})[-/.](\d{4})$/, ([, number, y]) => middle(y, +number)],
  [/^(\d{4})[-/.](\d{1,2})$/, ([, y, number]) => middle(y, +number)],
];
/** The middle month of a season, north of the equator. */
const SEASONS = spokenMeanings('season');

/** A week's Thursday, which is always of the year the week is counted in. */
function thursdayOf(week: number, year: number): CellDate | null {
  const first = iso(String(year), 1, 4);
  if (first === null || week < 1 || week > 53) return null;
  const monday = dayNumber(first) - getISODay(parseISO(first)) + 1;
  return { ...(same(isoDate(monday + 7 * (week - 1) + 3)) as CellDate), about: true };
}

const withoutWeekday = (text: string): string => {
  const word = /^\p{L}+/u.exec(text)?.[0];
  return word !== undefined && monthNumbers.has(foldText(word)) ? text : text.replace(WEEKDAY, '');
};

const month = (name: string): number => monthNumbers.get(foldText(name)) ?? 0;
function fullYear(two: number, today: IsoDate): string {
  const century = Number(today.slice(0, 2)) * 100;
  return String(century + two > Number(today.slice(0, 4)) ? century - 100 + two : century + two);
}
const pad = (n: string | number): string => String(n).padStart(2, '0');
function iso(year: string, month: string | number, day: string | number): IsoDate | null {
  const date = readDate(`${year}-${pad(month)}-${pad(day)}`);
  return typeof date === 'string' ? date : null;
}
const both = (dayFirst: IsoDate | null, monthFirst: IsoDate | null): CellDate | null =>
  dayFirst === null && monthFirst === null ? null : { dayFirst, monthFirst, monthOnly: false, about: false };
const same = (date: IsoDate | null): CellDate | null => both(date, date);
function middle(year: string, month: number): CellDate | null {
  const date = iso(year, month, 15);
  return date === null ? null : { dayFirst: date, monthFirst: date, monthOnly: true, about: false };
}

/** Ways to write an age, with the years that its figures are. */
const AGES: readonly (readonly [RegExp, (first: number, second: number, unit: string) => number])[] = [
  [
    new RegExp(
      `^(\\d{1,2})\\s*${YEARS}\\.?,?\\s*(?:and|und|et|y|e|en)?\\s*(?:(\\d{1,2})\\s*(?:${MONTHS})?\\.?)?$`,
    ),
    (years, months) => years + months / 12,
  ],
  [new RegExp(`^(\\d{1,3})\\s*${MONTHS}\\.?$`), (months) => months / 12],
  [
    new RegExp(`^(\\d{1,2})\\s*${MONTHS}\\.?,?\\s*(\\d{1,2})\\s*([wd])[a-z]*$`),
    (months, rest, unit) => months / 12 + (rest * (unit === 'w' ? 7 : 1)) / DAYS_A_YEAR,
  ],
  [/^(\d{1,2})\s*[;:]\s*(0?\d|1[01])$/, (years, months) => years + months / 12],
  [/^(\d{1,2})\/12$/, (months) => months / 12],
  [/^(\d{1,2}) (\d{1,2})\/12$/, (years, months) => years + months / 12],
  [/^([1-6])\/7$/, (days) => days / DAYS_A_YEAR],
  [new RegExp(`^(\\d{1,3})(?:\\s*${WEEKS}|\\/52)$`), (weeks) => (weeks * 7) / DAYS_A_YEAR],
];
const BARE = new RegExp(`^(\\d{1,3}(?:[.,]\\d+)?)\\s*(${YEARS})?\\.?$`);

/** An age in years, months and weeks, as years: '6y 6m', '7;0', '7,5', '18 Mo', '10/12', '3 J 4 M'. Null where it is none. */
export function cellAge(cell: string, heading = ''): number | null {
  if (cell.length > 40) return null;
  const text = cell
    .trim()
    .toLowerCase()
    .replace(/(?<=\w)\s*\([^()]*\)$/, '')
    .replace(/\s*½/g, ',5')
    .replace(/\s+/g, ' ')
    .replace(
      /^(\d{1,2}) ?(\p{L}+) (?:and a half|(?:et )?1\/2|et demi|y medio|e mezzo|en een half)$/u,
      '$1,5 $2',
    )
    .replace(/^(\d{1,2}) (?:and a half|et demi|y medio|e mezzo|en een half|einhalb)$/, '$1,5');
  for (const [pattern, years] of AGES) {
    const [, first, second, unit] = pattern.exec(text) ?? [];
    if (first !== undefined) return years(+first, Number(second ?? 0), unit);
  }
  const days = /^(\d{1,3})\+([0-6])$/.exec(text);
  if (days && perYear(heading) > 50) return (+days[1] * 7 + +days[2]) / DAYS_A_YEAR;
  const match = BARE.exec(text);
  if (!match) return null;
  const age = Number(match[1].replace(',', '.'));
  const inUnit = match[2] === undefined ? age / perYear(heading) : age;
  return inUnit < 100 ? inUnit : null;
}

/** An age that is said to be one: '7y9m', '5;2'; not a bare number. */
export const saidAge = (cell: string): number | null => (/\p{L}|;/u.test(cell) ? cellAge(cell) : null);

/** In how many parts of a year a column of bare ages counts: 'Age (mths)', 'Alter in Wochen'. */
function perYear(heading: string): number {
  const words = foldWords(heading);
  if (words.some((w) => ageMonthWords.has(w))) return 12;
  return words.some((w) => ageWeekWords.has(w)) ? DAYS_A_YEAR / 7 : 1;
}
const ageMonthWords = wordSet((v) => v.ageMonths);
const ageWeekWords = wordSet((v) => v.ageWeeks);

/** A birth date of which only the year is known. */
export const birthYear = (cell: string): number | null =>
  /^(?:19|20)\d\d$/.test(cell.trim()) ? Number(cell) : null;

/** A day so many years after another (before, where negative); whole months by the calendar. */
export function dateAtAge(from: IsoDate, years: number): IsoDate {
  const months = Math.round(years * 12);
  if (Math.abs(years * 12 - months) > 1e-6) return isoDate(dayNumber(from) + years * DAYS_A_YEAR);
  return formatISO(addMonths(parseISO(from), months), { representation: 'date' }) as IsoDate;
}
