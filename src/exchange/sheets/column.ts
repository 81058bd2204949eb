import { foldText } from '../headings/fold-words.js';
import type { Candidate } from '../headings/heading-meaning.js';
import type { Meaning } from '../headings/meaning.js';
import type { GridRow } from './grid.js';
import type { Certainty } from './questions.js';

export interface Column {
  readonly index: number;
  readonly heading: string;
  /** Which of several columns under the same heading; 1 for the first. */
  readonly nth: number;
  /** What it was taken for; null while the clinic has not said. */
  readonly meaning: Meaning | null;
  readonly certainty: Certainty;
  readonly candidates: readonly Candidate[];
  /** Filled cells, and the first few. */
  readonly cells: number;
  readonly examples: readonly string[];
  /** Most cells hold two sizes, '17.8/18.0': of two sides, not one size read twice. */
  readonly pairs: boolean;
}

/** What stands in a column of a row; empty where nothing does. */
export const cellOf = (row: GridRow, column: Column | undefined): string =>
  column ? (row.cells[column.index] ?? '').trim() : '';

/** A column by its heading, or by its letter. */
export const columnName = ({ heading, index }: Pick<Column, 'heading' | 'index'>): string =>
  heading === '' ? `column ${letters(index)}` : heading;
/** What asks for a column's meaning, and what answers it. */
export const columnQuestion = (column: Pick<Column, 'heading' | 'index' | 'nth'>): string =>
  `column:${foldText(columnName(column))}${column.nth > 1 ? ` #${column.nth}` : ''}`;

export const letters = (index: number): string =>
  (index < 26 ? '' : String.fromCharCode(64 + Math.floor(index / 26))) +
  String.fromCharCode(65 + (index % 26));

/** 'Cast 2', or the second 'Cast' of a row with two devices: which of several of its kind a column is. */
export function ordinal(headings: readonly string[], index: number): number {
  const heading = headings[index];
  const said = /(?<![\d./-])([1-9])(?:st|nd|rd|th|er|e|\.)?(?![\d./-])/.exec(heading)?.[1];
  if (said !== undefined) return Number(said);
  return headings.slice(0, index).filter((other) => foldText(other) === foldText(heading)).length + 1;
}
