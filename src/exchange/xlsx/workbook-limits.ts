import { DoorpostError } from '../../errors.js';

/** How much of a workbook is read. A clinic of 5,000 children with ten years of visits stays well below each. */
export interface WorkbookLimits {
  /** Compressed size of the file. */
  readonly fileBytes: number;
  /** Everything that is unpacked of it, together. */
  readonly unpackedBytes: number;
  /** Unpacked to packed, of a part above `ratioFromBytes`; more is a file made to fill memory. */
  readonly ratio: number;
  readonly ratioFromBytes: number;
  readonly sheets: number;
  /** Rows with a value in them, of all sheets. */
  readonly rows: number;
  /** The last column that may hold a value. */
  readonly columns: number;
  /** Cells of all sheets; empty ones before a row's last value count, because a table has to hold them. */
  readonly cells: number;
  /** Characters in all cells, each repetition of a shared text counted. */
  readonly characters: number;
}

const MIB = 1024 * 1024;

export const workbookLimits: WorkbookLimits = {
  fileBytes: 64 * MIB,
  unpackedBytes: 256 * MIB,
  ratio: 250,
  ratioFromBytes: MIB,
  sheets: 100,
  rows: 200_000,
  columns: 512,
  cells: 2_000_000,
  characters: 50_000_000,
};

export const inWords = (count: number): string => count.toLocaleString('en');
export const inMebibytes = (bytes: number): string => `${Math.max(1, Math.round(bytes / MIB))} MiB`;

/** Refuses a workbook for a limit, and says the limit. */
export function tooMuch(file: string, what: string, accepted: string, row?: number): DoorpostError {
  return new DoorpostError('invalid-file', `${file}: ${what}. Accepted: ${accepted}`, {
    file,
    row,
    accepted,
  });
}
