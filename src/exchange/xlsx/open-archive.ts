import { type Entry, fromBufferPromise, type ZipFile } from 'yauzl';
import { inMebibytes, inWords, tooMuch, type WorkbookLimits } from './workbook-limits.js';

/** The parts of a zipped workbook. A part is unpacked as it is read, never whole. */
export interface Archive {
  has(part: string): boolean;
  /** The part's text in pieces; an error where it is not there or would unpack to too much. */
  read(part: string): AsyncIterable<string>;
}

/** Parts counted at all: a workbook has a few dozen. */
const MOST_PARTS = 10_000;

/**
 * Opens a zip by its directory. Sizes are checked against the limits before a part is opened; the library refuses a
 * part that turns out larger than the directory says.
 */
export async function openArchive(file: string, bytes: Uint8Array, limits: WorkbookLimits): Promise<Archive> {
  if (bytes.length > limits.fileBytes)
    throw tooMuch(file, `has ${inMebibytes(bytes.length)}`, `at most ${inMebibytes(limits.fileBytes)}`);
  const zip = await fromBufferPromise(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength), {
    lazyEntries: true,
  });
  const parts = new Map<string, Entry>();
  let counted = 0;
  for await (const entry of zip.eachEntry()) {
    if (++counted > MOST_PARTS)
      throw tooMuch(file, 'has too many parts', `at most ${inWords(MOST_PARTS)} parts`);
    parts.set(entry.fileName.toLowerCase(), entry);
  }
  let unpacked = 0;
  return {
    has: (part) => parts.has(part.toLowerCase()),
    read(part) {
      const entry = parts.get(part.toLowerCase());
      if (!entry) throw new Error(`its part ${part} is missing`);
      const { uncompressedSize, compressedSize } = entry;
      if (
        uncompressedSize > limits.ratioFromBytes &&
        uncompressedSize > limits.ratio * Math.max(1, compressedSize)
      )
        throw tooMuch(
          file,
          `${part} unpacks to ${inWords(Math.round(uncompressedSize / Math.max(1, compressedSize)))} times its size`,
          `at most ${limits.ratio} times`,
        );
      unpacked += uncompressedSize;
      if (unpacked > limits.unpackedBytes)
        throw tooMuch(
          file,
          `unpacks to more than ${inMebibytes(limits.unpackedBytes)}`,
          `at most ${inMebibytes(limits.unpackedBytes)} unpacked`,
        );
      return textOf(zip, entry);
    },
  };
}

async function* textOf(zip: ZipFile, entry: Entry): AsyncIterable<string> {
  if (entry.isEncrypted()) throw new Error('it is locked with a password');
  const decoder = new TextDecoder('utf-8');
  for await (const chunk of await zip.openReadStreamPromise(entry)) {
    yield decoder.decode(chunk as Uint8Array, { stream: true });
  }
  yield decoder.decode();
}
