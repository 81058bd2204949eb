import type { Range } from '../csv/read-table.js';

/** A file or sheet as cells, before anybody knows which line is the heading. */
export interface GridRow {
  /** From 1, as the spreadsheet numbers it. */
  readonly row: number;
  readonly cells: readonly string[];
}
export interface Grid {
  readonly file: string;
  /** The sheet's name in its workbook. */
  readonly sheet?: string;
  /** What stands between the cells of a delimited file. */
  readonly separator?: string;
  readonly rows: readonly GridRow[];
  /** Merged cells, rows from 1 and columns from 0; the value is in the first. */
  readonly merged: readonly Range[];
}

/** A table found in a grid: one heading a column, and the rows below it. */
export interface SheetTable {
  readonly file: string;
  readonly headingRow: number;
  readonly headings: readonly string[];
  readonly rows: readonly GridRow[];
  /** Lines above the heading: titles, the clinic's name, the month. */
  readonly titles: readonly string[];
}

/** The file a sheet stands in, without the sheet's name. */
export const bookOf = ({ file }: { readonly file: string }): string => file.replace(/(\.xlsx) .*$/i, '$1');
