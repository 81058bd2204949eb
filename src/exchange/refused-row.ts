import type { Places } from './csv/read-table.js';

/** One cell that kept a row (or, in a row of many readings, one reading) from being taken. */
export interface RefusedRow {
  readonly file: string;
  /** Counts from 1 and includes the heading line, as a spreadsheet shows it. */
  readonly row: number;
  readonly column: string;
  /** The cell as written. */
  readonly given: string;
  readonly why: string;
  readonly accepted: string;
}

/** 'measurements.csv row 7, value "6.9": ...; accepted: ...'. */
export function refusedRowText(r: RefusedRow): string {
  const given = r.given === '' ? 'empty' : `"${r.given}"`;
  return `${r.file} row ${r.row}, ${r.column} ${given}: ${r.why}. Accepted: ${r.accepted}.`;
}

/** A refusal in the words of the clinic's own sheet. */
export const inOwnWords = (refused: RefusedRow, places: Places | undefined): RefusedRow => {
  const place = places && Object.hasOwn(places, refused.column) ? places[refused.column] : null;
  return place ? { ...refused, column: place.column, given: place.given } : refused;
};
