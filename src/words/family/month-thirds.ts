import { addDaysIso, type IsoDate } from '../../records/dates.js';

export type Third = 'early' | 'middle' | 'late';
/** A part of a month no finer than a forecast is: days 1-10, 11-20, the rest. */
export interface MonthThird {
  readonly third: Third;
  /** 'YYYY-MM'. */
  readonly month: string;
}

/** thirdOf('2026-12-13') = the middle of December 2026. */
export function thirdOf(date: IsoDate): MonthThird {
  const day = Number(date.slice(8));
  const later = day <= 20 ? 'middle' : 'late';
  return { third: day <= 10 ? 'early' : later, month: date.slice(0, 7) };
}

/** The last third that is over by this day: what is true until the 13th of December is true in early December. */
export function lastThirdBefore(date: IsoDate): MonthThird {
  const { third } = thirdOf(date);
  const over = addDaysIso(date, 1);
  // On the last day of a third that third is over.
  if (thirdOf(over).third !== third) return thirdOf(date);
  const start = { early: '01', middle: '11', late: '21' }[third];
  return thirdOf(addDaysIso(`${date.slice(0, 8)}${start}`, -1));
}

/** The first third that begins on this day or later. */
export function firstThirdAfter(date: IsoDate): MonthThird {
  const day = Number(date.slice(8));
  if ([1, 11, 21].includes(day)) return thirdOf(date);
  if (day < 11) return thirdOf(`${date.slice(0, 8)}11`);
  if (day < 21) return thirdOf(`${date.slice(0, 8)}21`);
  const first = new Date(Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)), 1));
  return thirdOf(first.toISOString().slice(0, 10));
}
