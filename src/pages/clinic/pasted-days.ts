import { readDate } from '../../exchange/csv/read-date.js';
import type { IsoDate } from '../../records/dates.js';

export interface PastedDays {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly name: string;
}

const DATE = String.raw`\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[./]\s*\d{1,2}[./]\s*\d{4}|\d{1,2}\.?\s+[A-Za-z]{3,9}\.?,?\s+\d{4}|[A-Za-z]{3,9}\.?\s+\d{1,2},?\s+\d{4}`;
/** A weekday or name, a date, perhaps 'to' another, and a name: how authorities publish holidays. */
const LINE = new RegExp(
  String.raw`^(.*?)(?<![\d.])(${DATE})(?:\s*(?:to|until|[-–—])\s*(?:[A-Za-z]{2,9}\.?,?\s+)??(${DATE}))?(?!\d)(.*)$`,
);
const WEEKDAY = /^\s*(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?\b\.?/i;

/**
 * Days as they are copied from the list of a region or a school, one or one span a line: '25 Dec 2026 Christmas Day',
 * 'Spring break: 2027-02-15 to 2027-02-19'. Gives the days, and of lines it cannot read what is wrong.
 */
export function readPastedDays(text: string): {
  days: PastedDays[];
  refused: { line: number; given: string }[];
} {
  const days: PastedDays[] = [];
  const refused: { line: number; given: string }[] = [];
  for (const [i, raw] of text.split(/\r?\n/).entries()) {
    const given = raw.trim();
    if (given === '') continue;
    const [, before = '', first, last = first, after = ''] = LINE.exec(given) ?? [];
    const [from, to] = [first, last].map((d) => (d === undefined ? null : readDate(d)));
    if (typeof from === 'string' && typeof to === 'string' && to >= from)
      days.push({ from, to, name: nameOf(`${before} ${after}`) });
    else refused.push({ line: i + 1, given });
  }
  return { days, refused };
}

const nameOf = (text: string): string =>
  text
    .replace(WEEKDAY, ' ')
    .replace(/[\t;,:|]+/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[\s–—-]+|[\s–—-]+$/g, '')
    .slice(0, 80);
