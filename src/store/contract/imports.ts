/** Files that were taken in, and what a clinic said of its sheets. */

import { z } from 'zod';
import type { Caseload } from '../../records/caseload.js';
import type { Actor } from './actor.js';

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

/** What the clinic answered about its sheets; used without asking the next time. */
export interface SheetAnswersRepository {
  list(): Promise<readonly SheetAnswer[]>;
  keep(answers: readonly Omit<SheetAnswer, 'updatedBy' | 'updatedAt'>[], actor: Actor): Promise<void>;
  /** False where there is none. */
  remove(sheet: string, question: string, actor: Actor): Promise<boolean>;
}

export interface ImportsRepository {
  create(checked: CheckedImport, actor: Actor): Promise<string>;
  /** Another dry run of the same files, before it is taken in. */
  again(id: string, checked: Omit<CheckedImport, 'packed' | 'options'>, actor: Actor): Promise<void>;
  /** Every import with when it was made, the newest first, up to 20. */
  latest(): Promise<readonly ImportRun[]>;
  /** The children a taken-in import added something to. */
  children(id: string): Promise<readonly string[]>;
  /** Ids in this caseload that are not kept yet, by table: what taking it in would add. */
  fresh(caseload: Caseload): Promise<AddedIds>;
  committed(id: string, added: AddedIds): Promise<void>;
  /** Takes out what the import added and nothing was built on since. What stays is counted by why. */
  takeBack(id: string, actor: Actor): Promise<TakenBack>;
  /** Forgets dry runs made before then that were never taken in; they hold whole files of records. */
  sweep(before: Date): Promise<void>;
  get(id: string): Promise<StoredImport>;
  /** Locks it for the rest of the transaction. */
  lock(id: string): Promise<StoredImport>;
  setStatus(id: string, status: StoredImport['status'], plan?: unknown): Promise<void>;
}
