/** Files that were taken in, and what a clinic said of its sheets. */

import { z } from 'zod';
import type { Caseload, CaseloadPart } from '../../records/caseload.js';

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

/** Records of one kind as the text of a JSON list: where they are only passed on they are never objects. */
export interface RecordsAsText {
  readonly part: CaseloadPart;
  readonly json: string;
}

/** What taking the records of a kind in would do. */
export interface ImportCounts {
  readonly table: CaseloadPart;
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
}

/** A child in a file, and who seems to be the same and is kept under another number. */
export interface Namesake {
  readonly name: string;
  readonly birthDate: string;
  readonly keptId: string;
  readonly keptName: string;
}

export interface CheckedImport<P = unknown> {
  readonly records: AsyncIterable<RecordsAsText> | Iterable<RecordsAsText>;
  /** Of two names of children born on the same day. */
  readonly sameName: (a: string, b: string) => boolean;
  readonly planOf: (tables: readonly ImportCounts[], namesakes: readonly Namesake[]) => P;
  /** The files, kept until it is taken in where anything can be answered, so that an answer does not need them again. */
  readonly packed: Uint8Array | null;
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
  /** Are its records still there? Gone once committed or when a child was erased. */
  readonly kept: boolean;
  readonly createdBy: string;
}
