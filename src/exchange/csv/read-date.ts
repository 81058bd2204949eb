import { dayNumber, type IsoDate, isIsoDate, isoDate } from '../../records/dates.js';
import { remembered } from '../remembered.js';

/** How 03/04/2024 is read: 'dmy' 3 April, 'mdy' 4 March, 'refuse' where both are possible. */
export type DateOrder = 'refuse' | 'dmy' | 'mdy';
/** A cell that could not be read: why, in words that follow the given value. */
export interface Unread {
  readonly why: string;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
/** Day 0 of the 1900 date system as spreadsheets count it, in days since 1970-01-01. */
const SERIAL_ZERO = dayNumber('1899-12-30');
/** Serials of 1950-01-01 .. 2119-12-31: a bare number outside is no date. */
const SERIALS = [dayNumber('1950-01-01') - SERIAL_ZERO, dayNumber('2119-12-31') - SERIAL_ZERO] as const;

const LONGEST = 60;
/** '2026-03-02T09:16:00.000Z', '17.03.2024 14:30'. */
const TIME_OF_DAY = /[T ]\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s*(?:[ap]m|h|z|[+-]\d{2}:?\d{2})?$/i;

/**
 * A calendar date out of a cell: ISO (a time of day is dropped), year first with any mark, day first with dots,
 * slashes or dashes where only one reading is possible, an English month name, or a spreadsheet's serial
 * (1900 system, after its false 29 February 1900).
 * readDate('17.3.2024') = '2024-03-17'; readDate('45368') = '2024-03-17'.
 */
export const readDate = (text: string, order: DateOrder = 'refuse'): IsoDate | Unread => READERS[order](text);

function dateIn(text: string, order: DateOrder): IsoDate | Unread {
  if (text.length > LONGEST) return { why: 'is not a date' };
  const cell = text.trim().replace(TIME_OF_DAY, '');
  let match = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(cell) ?? /^(\d{4})()(\d{2})(\d{2})$/.exec(cell);
  if (match) return calendarDate(+match[1], +match[3], +match[4]);
  if (/^\d{4,6}([.,]\d+)?$/.test(cell)) return serialDate(Math.floor(Number(cell.replace(',', '.'))));
  match = /^(\d{1,2})[-. ]*\s*([A-Za-z]{3})[a-z]*\.?[-. ,]*(\d{4})$/.exec(cell);
  if (match && monthOf(match[2])) return calendarDate(+match[3], monthOf(match[2]), +match[1]);
  match = /^([A-Za-z]{3})[a-z]*\.?\s+(\d{1,2}),?\s+(\d{4})$/.exec(cell);
  if (match && monthOf(match[1])) return calendarDate(+match[3], monthOf(match[1]), +match[2]);
  match = /^(\d{1,2})([-/.])\s*(\d{1,2})\2\s*(\d{4})$/.exec(cell);
  if (match) return numericDate(+match[1], +match[3], +match[4], match[2], order);
  if (/^\d{1,2}([-/.])\d{1,2}\1\d{2}$/.test(cell)) return { why: 'has a year of two digits' };
  return { why: 'is not a date' };
}

const READERS = {
  refuse: remembered((text) => dateIn(text, 'refuse')),
  dmy: remembered((text) => dateIn(text, 'dmy')),
  mdy: remembered((text) => dateIn(text, 'mdy')),
};

const monthOf = (name: string): number => MONTHS.indexOf(name.toLowerCase()) + 1;

function numericDate(a: number, b: number, year: number, mark: string, order: DateOrder): IsoDate | Unread {
  if (mark === '.' || order === 'dmy') return calendarDate(year, b, a);
  if (order === 'mdy') return calendarDate(year, a, b);
  if (a > 12 || a === b) return calendarDate(year, b, a);
  if (b > 12) return calendarDate(year, a, b);
  const [dayFirst, monthFirst] = [calendarDate(year, b, a), calendarDate(year, a, b)];
  return {
    why: `can be read as ${dayFirst} or as ${monthFirst}; a date such as 2024-03-17 or 17 Mar 2024 says which`,
  };
}

function calendarDate(year: number, month: number, day: number): IsoDate | Unread {
  const iso = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  if (!isIsoDate(iso)) return { why: 'is not a day of the calendar' };
  return year < 1900 || year > 2199 ? { why: 'has a year outside 1900 to 2199' } : iso;
}

function serialDate(serial: number): IsoDate | Unread {
  if (serial < SERIALS[0] || serial > SERIALS[1]) return { why: 'is not a date' };
  return isoDate(SERIAL_ZERO + serial);
}
