import { appendFileSync, closeSync, openSync } from 'node:fs';
import { open } from 'node:fs/promises';
import type { CaseloadPart } from '../../records/caseload.js';
import type { RecordsAsText } from '../../store/contract.js';

/** Lists of records one behind another in a file: of which kind, and how long. */
export type Lists = readonly { readonly part: CaseloadPart; readonly bytes: number }[];

const RECORDS_A_LIST = 500;

export interface RecordsFile {
  add(part: CaseloadPart, record: unknown): void;
  /** Whole once it is closed. */
  readonly lists: Lists;
  close(): void;
}

/** Writes records in the order in which they are read. */
export function recordsFile(path: string): RecordsFile {
  const file = openSync(path, 'wx', 0o600);
  const lists: { part: CaseloadPart; bytes: number }[] = [];
  let of: CaseloadPart = 'children';
  let texts: string[] = [];
  const write = () => {
    if (texts.length === 0) return;
    const list = Buffer.from(`[${texts.join(',')}]`);
    appendFileSync(file, list);
    lists.push({ part: of, bytes: list.length });
    texts = [];
  };
  return {
    lists,
    add(part, record) {
      if (part !== of || texts.length >= RECORDS_A_LIST) write();
      of = part;
      texts.push(JSON.stringify(record));
    },
    close() {
      try {
        write();
      } finally {
        closeSync(file);
      }
    },
  };
}

/** The same lists, one after another. */
export async function* recordsIn(path: string, lists: Lists): AsyncGenerator<RecordsAsText> {
  const file = await open(path);
  try {
    for (const { part, bytes } of lists) {
      const { buffer } = await file.read(Buffer.allocUnsafe(bytes), 0, bytes);
      yield { part, json: buffer.toString('utf8') };
    }
  } finally {
    await file.close();
  }
}
