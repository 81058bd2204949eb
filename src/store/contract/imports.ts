/** Files that were taken in, and what a clinic said of its sheets. */

import { z } from 'zod';
import type { Caseload } from '../../records/caseload.js';

export const sheetAnswer = z.object({
  sheet: z
    .string()
    .describe('the sheet by its headings; empty for a word that means the same in every sheet'),
  question: z.string(),
  asks: z.string(),
  headings: z.string().describe('of the sheet, for people'),
  answer: z.string(),
  updatedBy: z.string(),
  updatedAt: z.string(),
});
export type SheetAnswer = Readonly<z.infer<typeof sheetAnswer>>;

export interface CheckedImport {
  readonly plan: unknown;
  /** JSON of a `Caseload`: a large one is never an object where it is only passed on. */
  readonly caseload: string;
  readonly childIds: readonly string[];
  /** The files, kept until it is taken in, so that an answer does not need them again. */
  readonly packed: Uint8Array;
  /** How it was read. */
  readonly options: unknown;
}

export type AddedIds = { readonly [K in keyof Caseload]: readonly string[] };

export interface ImportRun {
  readonly id: string;
  readonly status: StoredImport['status'];
  readonly createdAt: string;
  readonly createdBy: string;
}

export interface TakenBack {
  readonly removed: number;
  /** Records that stay, by why. */
  readonly stays: readonly { readonly why: string; readonly count: number }[];
}

export interface StoredImport {
  readonly id: string;
  readonly status: 'checked' | 'queued' | 'committed' | 'refused' | 'taken-back';
  readonly packed: Uint8Array | null;
  readonly options: unknown;
  readonly added: AddedIds | null;
  readonly plan: unknown;
  /** Gone once committed or when it was erased. */
  readonly caseload: Caseload | null;
  readonly createdBy: string;
}
