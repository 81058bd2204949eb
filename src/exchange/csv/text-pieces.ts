import { closeSync, openSync, readSync } from 'node:fs';

/** A file as it lies on the disk, or what was sent of it. */
export type Content = Uint8Array | { readonly path: string };

/** So many characters show how a file is written. */
export const SNIFFED = 20_000;
const PIECE_BYTES = 256 * 1024;

function* bytesOf(content: Content): Generator<Uint8Array> {
  if (!('path' in content)) {
    for (let at = 0; at < content.length; at += PIECE_BYTES) yield content.subarray(at, at + PIECE_BYTES);
    return;
  }
  const handle = openSync(content.path, 'r');
  try {
    for (;;) {
      const buffer = Buffer.allocUnsafe(PIECE_BYTES);
      const read = readSync(handle, buffer);
      if (read === 0) return;
      yield buffer.subarray(0, read);
    }
  } finally {
    closeSync(handle);
  }
}

type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** What must be known of a whole file before its first row: how it is encoded, how it begins, whether anything is quoted. */
export function looked(content: Content): { encoding: Encoding; begins: string; quoted: boolean } {
  let encoding = markedEncoding(content);
  if (encoding === 'utf-8' && !isUtf8(content)) encoding = 'windows-1252';
  let begins = '';
  let quoted = false;
  for (const text of texts(content, encoding)) {
    if (begins.length < SNIFFED) begins += text;
    quoted ||= text.includes('"');
  }
  return { encoding, begins, quoted };
}

function markedEncoding(content: Content): Encoding {
  const { value: first = new Uint8Array() } = bytesOf(content).next();
  if (first[0] === 0xff && first[1] === 0xfe) return 'utf-16le';
  return first[0] === 0xfe && first[1] === 0xff ? 'utf-16be' : 'utf-8';
}

function isUtf8(content: Content): boolean {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  try {
    for (const bytes of bytesOf(content)) decoder.decode(bytes, { stream: true });
    decoder.decode();
    return true;
  } catch {
    return false;
  }
}

export function* texts(content: Content, encoding: Encoding): Generator<string> {
  if (encoding === 'windows-1252') {
    for (const bytes of bytesOf(content))
      yield Buffer.from(bytes)
        .toString('latin1')
        .replace(/[\x80-\x9f]/g, (char) => WINDOWS_1252[char.charCodeAt(0) - 0x80]);
    return;
  }
  const decoder = new TextDecoder(encoding);
  for (const bytes of bytesOf(content)) yield decoder.decode(bytes, { stream: true });
  yield decoder.decode();
}

/** The same text in pieces that end where a line ends, outside of quotation marks. */
export function* wholeLines(pieces: Iterable<string>): Generator<string> {
  let rest = '';
  let quoted = false;
  for (const piece of pieces) {
    let at = rest.length;
    rest += piece;
    let cut = 0;
    for (const mark of [...marksFrom(rest, at), rest.length]) {
      if (!quoted) cut = lineEnd(rest, at, mark) || cut;
      if (mark < rest.length) quoted = !quoted;
      at = mark + 1;
    }
    if (cut > 0) yield rest.slice(0, cut);
    rest = rest.slice(cut);
  }
  if (rest !== '') yield rest;
}

function* marksFrom(text: string, from: number): Generator<number> {
  for (let at = text.indexOf('"', from); at !== -1; at = text.indexOf('"', at + 1)) yield at;
}

/** Behind the last line's end in a part of a text; 0 where there is none. What the next piece may go on with is none yet. */
function lineEnd(text: string, from: number, until: number): number {
  for (let i = until - 1; i >= from; i--)
    if (text[i] === '\n' || (text[i] === '\r' && i < text.length - 1)) return i + 1;
  return 0;
}

/** 0x80 to 0x9f by the WHATWG's index of windows-1252: Node 20's own decoder reads them as control characters. */
const WINDOWS_1252 =
  '\u20ac\x81\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\x8d\u017d\x8f\x90\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\x9d\u017e\u0178';
