import { decimalAgeYears } from '../../records/age.js';
import { DAYS_A_YEAR, daysBetween, type IsoDate, weekdayName } from '../../records/dates.js';
import { dayIn } from '../../service/clock.js';
import { dateWriter } from '../../words/written-date.js';

/** Dates, sizes and chances as this reader writes them. */
export interface Format {
  readonly locale: string;
  /** 20 Jan 2026 */
  date(iso: IsoDate): string;
  /** The day a moment fell on where the clinic is, and its hour: 20 Jan 2026; 14:05 */
  day(moment: string): string;
  dayOf(moment: string): IsoDate;
  time(moment: string): string;
  /** Tuesday 20 January 2026 */
  longDate(iso: IsoDate): string;
  /** 20 January 2026; in a sentence that would bend a weekday's name. */
  plainDate(iso: IsoDate): string;
  /** 20 January */
  dayAndMonth(iso: IsoDate): string;
  /** Jan 2026 */
  month(iso: IsoDate): string;
  /** 'in 3 weeks', '12 days ago' */
  away(iso: IsoDate, today: IsoDate): string;
  /** '3 weeks', '11 months': how long so many days are. */
  span(days: number): string;
  number(value: number, digits?: number): string;
  /** A size somebody stated: 8, or 6.5 where it has a tenth. */
  stated(value: number): string;
  percent(share: number): string;
}

/** The reader's first accepted language that is one; `fallback` (the clinic's) without. */
export function readerLocale(acceptLanguage: string | undefined, fallback: string): string {
  const asked = (acceptLanguage ?? '').split(',').map((part) => part.split(';')[0].trim());
  for (const tag of [...asked, fallback]) {
    if (!tag || tag === '*') continue;
    try {
      const [locale] = Intl.DateTimeFormat.supportedLocalesOf([tag]);
      if (locale) return locale;
    } catch {
      // Not a language tag: the next one counts.
    }
  }
  return 'en-GB';
}

/** Days in the unit a person would say. */
function inUnits(days: number): [number, 'day' | 'week' | 'month' | 'year'] {
  const size = Math.abs(days);
  if (size < 14) return [days, 'day'];
  if (size < 90) return [Math.round(days / 7), 'week'];
  if (size < 730) return [Math.round(days / 30.44), 'month'];
  return [Math.round(days / DAYS_A_YEAR), 'year'];
}

const known = new Map<string, Format>();

/** `timeZone` is the clinic's: of moments, what its clocks said. */
export function formatFor(locale: string, timeZone = 'UTC'): Format {
  const kept = `${locale} ${timeZone}`;
  const ready = known.get(kept);
  if (ready) return ready;
  // 'en' alone says nothing of day and month order; the unambiguous '20 Jan 2026' suits every reader of it.
  const tag = locale === 'en' ? 'en-GB' : locale;
  const dates = (options: Intl.DateTimeFormatOptions) => dateWriter(tag, options);
  const relative = new Intl.RelativeTimeFormat(tag, { numeric: 'auto' });
  // To make one takes a hundred times as long as to use it.
  const made = new Map<string, Intl.NumberFormat>();
  const numbers = (options: Intl.NumberFormatOptions) => {
    const key = JSON.stringify(options);
    const format = made.get(key) ?? new Intl.NumberFormat(tag, options);
    made.set(key, format);
    return format;
  };
  const date = dates({ day: 'numeric', month: 'short', year: 'numeric' });
  const there = dayIn(timeZone);
  const dayOf = (moment: string) => there(new Date(moment));
  const hour = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' });
  const format: Format = {
    locale,
    date,
    dayOf,
    day: (moment) => date(dayOf(moment)),
    time: (moment) => hour.format(new Date(moment)),
    longDate: dates({ weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }),
    plainDate: dates({ day: 'numeric', month: 'long', year: 'numeric' }),
    dayAndMonth: dates({ day: 'numeric', month: 'long' }),
    month: dates({ month: 'short', year: 'numeric' }),
    away: (iso, today) => relative.format(...inUnits(daysBetween(today, iso))),
    span: (days) => {
      const [count, unit] = inUnits(days);
      return numbers({ style: 'unit', unit, unitDisplay: 'long' }).format(count);
    },
    number: (value, digits = 0) =>
      numbers({ maximumFractionDigits: digits, minimumFractionDigits: digits }).format(value),
    stated: (value) => numbers({ maximumFractionDigits: 1 }).format(value),
    percent: (share) => {
      if (share > 0 && share < 0.01) return 'under 1\u00a0%';
      return share > 0.99 && share < 1 ? 'over 99\u00a0%' : `${Math.round(share * 100)}\u00a0%`;
    },
  };
  known.set(kept, format);
  return format;
}

/** '8 y 3 m'; months alone under two years. */
export function ageText(birthDate: IsoDate, today: IsoDate): string {
  const months = Math.floor(decimalAgeYears(birthDate, today) * 12 + 1e-6);
  return months < 24 ? `${Math.max(0, months)} m` : `${Math.floor(months / 12)} y ${months % 12} m`;
}

/** shortWeekday(1) = 'Mon'. */
export const shortWeekday = (weekday: number): string => weekdayName(weekday).slice(0, 3);
