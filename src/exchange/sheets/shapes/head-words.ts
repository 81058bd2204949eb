import { fieldHeaded, headingCandidates } from '../../headings/heading-meaning.js';
import { isOfHelmets, ofHead } from '../column-candidates.js';
import type { SheetTable } from '../grid.js';

/** In a list of helmets with a row a size a bare 'length' or 'circumference' is the head's. */
export function withHeadWords(table: SheetTable): SheetTable {
  const { headings, rows, titles, file } = table;
  const valued = headings.some((heading) => fieldHeaded(heading) === 'long.value');
  const what = headings.findIndex((heading) => fieldHeaded(heading) === 'long.measure');
  if (what < 0 || !valued) return table;
  const words = [...new Set(rows.map(({ cells }) => cells[what] ?? ''))];
  if (!isOfHelmets({ titles, file, headings: [...headings, ...words] })) return table;
  const named = new Map(
    words.flatMap((word): [string, string][] => {
      const isSize = headingCandidates(word).some(
        ({ meaning, strength }) =>
          meaning.kind === 'reading' && meaning.measure !== 'stature' && strength >= 0.75,
      );
      const [best] = isSize ? [] : ofHead(word);
      return best?.meaning.kind === 'reading' ? [[word, best.meaning.measure]] : [];
    }),
  );
  if (named.size === 0) return table;
  return {
    ...table,
    rows: rows.map(({ row, cells }) => ({
      row,
      cells: cells.map((cell, at) => (at === what ? (named.get(cell) ?? cell) : cell)),
    })),
  };
}
