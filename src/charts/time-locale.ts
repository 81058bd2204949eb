import { dateWriter } from '../words/written-date.js';

const known = new Map<string, object>();

/** Month and day names of a language in the shape Vega reads, taken from the platform's own tables (Unicode CLDR). */
export function timeLocale(language: string): object {
  const locale = known.get(language) ?? read(language);
  known.set(language, locale);
  return locale;
}

function read(language: string): object {
  const names = (options: Intl.DateTimeFormatOptions, count: number, at: (i: number) => Date) => {
    const format = new Intl.DateTimeFormat(language, { ...options, timeZone: 'UTC' });
    return Array.from({ length: count }, (_, i) => format.format(at(i)));
  };
  const month = (i: number) => new Date(Date.UTC(2023, i, 15));
  const day = (i: number) => new Date(Date.UTC(2023, 0, 1 + i)); // 1 January 2023 was a Sunday
  return {
    time: {
      dateTime: '%A %e %B %Y %X',
      date: '%d/%m/%Y',
      time: '%H:%M:%S',
      periods: ['AM', 'PM'],
      days: names({ weekday: 'long' }, 7, day),
      shortDays: names({ weekday: 'short' }, 7, day),
      months: names({ month: 'long' }, 12, month),
      shortMonths: names({ month: 'short' }, 12, month),
    },
    number: {
      decimal: new Intl.NumberFormat(language).format(0.5).replace(/[\p{Nd}]/gu, '') || '.',
      thousands: '\u202f',
      grouping: [3],
      currency: ['', ''],
    },
  };
}

/** '5 Nov 2026' in the reader's language. */
export const readableDate = (iso: string, language: string): string =>
  dateWriter(language, { dateStyle: 'medium' })(iso);

/** 'Nov 2026' in the reader's language. */
export const readableMonth = (iso: string, language: string): string =>
  dateWriter(language, { month: 'short', year: 'numeric' })(iso);

/** How a chart over so many years marks its days. */
export const dateAxis = (years: number) => ({
  dateFormat: years > 4 ? '%Y' : '%b %Y',
  dateTicks: years > 4 ? 'year' : { interval: 'month', step: years > 2 ? 6 : 3 },
});
