import { weekdayWords } from '../csv/read-children.js';
import { foldText } from '../headings/fold-words.js';
import { languages } from '../headings/vocabulary.js';

/** Places in `weekdayWords` by the names of the days, whole and short, in each language. */
const days = new Map(weekdayWords.map((word, at) => [word, at]));
for (const language of languages)
  for (const weekday of ['long', 'short'] as const) {
    const format = new Intl.DateTimeFormat(language, { weekday, timeZone: 'UTC' });
    // 1 January 2024 was a Monday.
    for (let at = 0; at < 7; at++) days.set(foldText(format.format(new Date(Date.UTC(2024, 0, 1 + at)))), at);
  }

const dayOf = (word: string): number | undefined =>
  days.get(word) ??
  days.get(word.replace(/s$/, '')) ??
  // 'Tues', 'Thurs'.
  (word.length <= 6 && weekdayWords.includes(word.slice(0, 3)) ? days.get(word.slice(0, 3)) : undefined) ??
  (/^[1-7]$/.test(word) ? Number(word) - 1 : undefined);

/** 'Mo, Do' -> 'mon | thu', as our own tables have it; null for anything but days: 'bus', 'Mon - Fri', 'not Mon'. */
export function cellWeekdays(cell: string): string | null {
  const said = cell
    .split(/[|;,/+&.]/)
    .map(foldText)
    .filter((word) => word !== '');
  const found = said.map(dayOf);
  if (found.length === 0 || found.includes(undefined)) return null;
  return [...new Set(found)].map((at) => weekdayWords[at as number]).join(' | ');
}

export const isWeekdays = (cell: string): boolean => cellWeekdays(cell) !== null;
