import type { Archive } from './open-archive.js';
import { readXml } from './read-xml.js';

/** The texts that cells point to, in order. Runs of formatting are joined; reading aids (rPh) are not text. */
export async function sharedStrings(archive: Archive, part: string | null): Promise<string[]> {
  const texts: string[] = [];
  if (part === null) return texts;
  let text = '';
  let inText = false;
  let aids = 0;
  await readXml(archive.read(part), {
    open(name) {
      if (name === 'si') text = '';
      if (name === 'rPh') aids++;
      inText = name === 't' && aids === 0;
    },
    text(piece) {
      if (inText) text += piece;
    },
    close(name) {
      inText = false;
      if (name === 'rPh') aids--;
      if (name === 'si') texts.push(unescaped(text));
    },
  });
  return texts;
}

/** Spreadsheets write a control character as _x000D_ (ECMA-376 part 1, 22.9.2.19, from memory). */
export const unescaped = (text: string): string =>
  text.includes('_x')
    ? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) =>
        String.fromCharCode(Number.parseInt(code, 16)),
      )
    : text;
