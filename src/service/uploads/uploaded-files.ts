import { readFile } from 'node:fs/promises';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { FileOnDisk, NamedFile } from '../../exchange/parse-caseload.js';

/** What a clinic sent: short texts, files that were streamed to the disk, or the packed files of a dry run before. */
export type UploadedFiles = readonly (NamedFile | FileOnDisk)[] | { readonly packed: Uint8Array };

/** As they are kept until the import is taken in, so that an answer does not need the files again. */
export async function packed(files: readonly (NamedFile | FileOnDisk)[]): Promise<Buffer> {
  const held = files.map(async (file) => ({
    name: file.name,
    base64: Buffer.from('path' in file ? await readFile(file.path) : file.bytes).toString('base64'),
  }));
  return gzipSync(JSON.stringify(await Promise.all(held)));
}

export const unpacked = (kept: Uint8Array): NamedFile[] =>
  (JSON.parse(gunzipSync(kept).toString('utf8')) as { name: string; base64: string }[]).map(
    ({ name, base64 }) => ({ name, bytes: new Uint8Array(Buffer.from(base64, 'base64')) }),
  );
