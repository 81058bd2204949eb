const DAY_MS = 86_400_000;

/**
 * A spreadsheet's day number as an ISO date, or 'HH:MM' below one day. Counted from 1904-01-01, or from 1900-01-01 as
 * day 1 with a 29 February 1900 that never was (ECMA-376 part 1, 18.17.4.1, from memory). Null where it is no date.
 */
export function serialDate(serial: number, from1904: boolean): string | null {
  if (!Number.isFinite(serial) || serial < 0 || serial > 2_958_465) return null;
  if (serial < 1 && !from1904) return new Date(Math.round(serial * DAY_MS)).toISOString().slice(11, 16);
  const first = from1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, serial < 60 ? 31 : 30);
  return new Date(first + Math.floor(serial) * DAY_MS).toISOString().slice(0, 10);
}
