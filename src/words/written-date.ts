import type { IsoDate } from '../records/dates.js';

const writers = new Map<string, (iso: IsoDate) => string>();

/**
 * Writes days as a language does; 'en' alone says nothing of day and month order, and '20 Jan 2026' suits every reader
 * of it. The 'р.' (year) that Ukrainian puts behind is left out: it reads as the end of a sentence.
 */
export function dateWriter(language: string, options: Intl.DateTimeFormatOptions): (iso: IsoDate) => string {
  const key = `${language} ${JSON.stringify(options)}`;
  const known = writers.get(key);
  if (known) return known;
  const format = new Intl.DateTimeFormat(language === 'en' ? 'en-GB' : language, {
    ...options,
    timeZone: 'UTC',
  });
  const write = (iso: IsoDate) => format.format(new Date(`${iso}T00:00:00Z`)).replace(/\s[рг]\.$/, '');
  writers.set(key, write);
  return write;
}
