import { existsSync, readFileSync } from 'node:fs';
import { SourceMap } from 'node:module';
import { fileURLToPath } from 'node:url';

const maps = new Map();

/**
 * Errors name files and lines of src/. The maps are read when the first error is shown: to read them at every start, as
 * Node does when it is told of them, takes a tenth of it.
 */
export function makeTracesReadable() {
  Error.prepareStackTrace = (error, frames) =>
    [headOf(error), ...frames.map((frame) => `    at ${inSource(frame)}`)].join('\n');
}

function headOf(error) {
  try {
    return String(error);
  } catch {
    return 'Error';
  }
}

function inSource(frame) {
  const text = String(frame);
  const file = frame.getFileName();
  const map = file?.startsWith('file:') ? mapOf(fileURLToPath(file)) : null;
  const found = map?.findEntry(frame.getLineNumber() - 1, frame.getColumnNumber() - 1);
  if (!found?.originalSource) return text;
  const source = new URL(found.originalSource, file).href;
  const at = `${file}:${frame.getLineNumber()}:${frame.getColumnNumber()}`;
  return text.replace(at, `${source}:${found.originalLine + 1}:${found.originalColumn + 1}`);
}

function mapOf(path) {
  if (!maps.has(path)) {
    const file = `${path}.map`;
    maps.set(path, existsSync(file) ? new SourceMap(JSON.parse(readFileSync(file, 'utf8'))) : null);
  }
  return maps.get(path);
}
