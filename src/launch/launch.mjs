import { createHash } from 'node:crypto';
import { lstatSync, readdirSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { makeTracesReadable } from './readable-traces.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const uid = process.getuid?.();

/** Runs a TypeScript file of src/ out of one build of all of them, which the first start after a change makes. */
export async function launch(entry) {
  makeTracesReadable();
  const files = filesBelow(join(root, 'src'));
  const name = nameOf(files);
  const places = [
    join(root, 'node_modules/.cache/doorpost', name),
    // Where the folder of the packages cannot be written.
    join(tmpdir(), `doorpost-${uid}`, name),
  ];
  for (const place of places) {
    if (!isTrusted(place)) await (await import('./build.mjs')).build(root, files, place);
    if (isTrusted(place)) return import(pathToFileURL(join(place, entry.replace(/\.ts$/, '.mjs'))).href);
  }
  throw new Error(`doorpost cannot be built: nothing can be written to ${places.join(' or ')}`);
}

export const filesBelow = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile())
    .map((f) => join(f.parentPath, f.name))
    .sort();

/** Other sources, other packages or another place make another name. By size and second: an image keeps no finer times. */
function nameOf(files) {
  const hash = createHash('sha256');
  for (const file of [...files, join(root, 'package-lock.json'), join(root, 'tsconfig.json')]) {
    const { size, mtimeMs } = statSync(file);
    hash.update(`${file} ${size} ${Math.floor(mtimeMs / 1000)}\n`);
  }
  return hash.digest('hex').slice(0, 16);
}

/** Code is run only from a folder that nobody else could have written: ours, or that of whoever installed the packages. */
function isTrusted(place) {
  const [folder, parent] = [place, dirname(place)].map((path) => lstatSync(path, { throwIfNoEntry: false }));
  if (!folder?.isDirectory() || !parent?.isDirectory()) return false;
  const owners = [uid, lstatSync(root).uid];
  return uid === undefined || [folder, parent].every((f) => owners.includes(f.uid) && !(f.mode & 0o002));
}
