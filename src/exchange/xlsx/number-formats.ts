import type { Archive } from './open-archive.js';
import { readXml } from './read-xml.js';

/** How a cell's number is shown; a date is a number with a date's format. */
export interface NumberFormat {
  /** The format's code, 'dd.mm.yyyy' or '0.0" cm"'; empty for a built-in one that is not a date. */
  readonly code: string;
  readonly date: boolean;
}

const PLAIN: NumberFormat = { code: '', date: false };
/** The built-in formats that show dates or times (ECMA-376 part 1, 18.8.30, with the East Asian ones; from memory). */
const builtInDate = (id: number): boolean =>
  (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58);

/** The format of each cell style, by the style's number. */
export async function numberFormats(archive: Archive, part: string | null): Promise<NumberFormat[]> {
  const codes = new Map<number, string>();
  const styles: NumberFormat[] = [];
  if (part === null) return styles;
  let inCells = false;
  await readXml(archive.read(part), {
    open(name, attributes) {
      if (name === 'cellXfs') inCells = true;
      if (name === 'numFmt')
        codes.set(Number(attributes.get('numFmtId')), attributes.get('formatCode') ?? '');
      if (name === 'xf' && inCells) styles.push(formatOf(Number(attributes.get('numFmtId') ?? 0), codes));
    },
    close(name) {
      if (name === 'cellXfs') inCells = false;
    },
  });
  return styles;
}

function formatOf(id: number, codes: ReadonlyMap<number, string>): NumberFormat {
  const code = codes.get(id);
  if (code === undefined) return builtInDate(id) ? { code: '', date: true } : PLAIN;
  return { code, date: showsDate(code) };
}

/** Whether a format shows days, months, years or hours outside its quoted, bracketed and escaped text. */
export const showsDate = (code: string): boolean =>
  /[dmyh]/i.test(code.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]|General/gi, '')) || /\[(h+|m+|s+)\]/i.test(code);
