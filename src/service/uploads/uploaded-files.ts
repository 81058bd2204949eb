import { readFile } from 'node:fs/promises';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { NamedFile } from '../../exchange/parse-caseload.js';

/** A file that was streamed to the disk: the web server never holds it. */
export interface FileOnDisk {
  readonly name: string;
  readonly path: string;
}

/** What a clinic sent: short texts, files on the disk, or the packed files of a dry run before. */
export type UploadedFiles = readonly (NamedFile | FileOnDisk)[] | { readonly packed: Uint8Array };

/** In the process that reads uploads. */
export async function filesInMemory(files: UploadedFiles): Promise<readonly NamedFile[]> {
  if ('packed' in files) return unpacked(files.packed);
  return Promise.all(
    files.map(async (file) =>
      'path' in file ? { name: file.name, bytes: new Uint8Array(await readFile(file.path)) } : file,
    ),
  );
}

/** As they are kept until the import is taken in, so that an answer does not need the files again. */
export const packed = (files: readonly NamedFile[]): Buffer =>
  gzipSync(
    JSON.stringify(files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') }))),
  );

const unpacked = (kept: Uint8Array): NamedFile[] =>
  (JSON.parse(gunzipSync(kept).toString('utf8')) as { name: string; base64: string }[]).map(
    ({ name, base64 }) => ({ name, bytes: new Uint8Array(Buffer.from(base64, 'base64')) }),
  );
