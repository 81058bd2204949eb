import type { SheetTable } from '../grid.js';

/** 'c = cast', 'f: fitted': what a letter or two stand for. */
const MEANS = /(?<!\p{L})(\p{L}{1,2})\s*=\s*(\p{L}[\p{L} ]*)/gu;

/** 'Splints (c = cast, f = fitted)': letters before the days of a column, in the words its heading gives them. */
export function withLegend(whole: SheetTable): SheetTable {
  const table = withTitleKey(whole);
  const keys = table.headings.map((heading) => [...heading.matchAll(MEANS)]);
  if (keys.every((found) => found.length === 0)) return table;
  const inWords = (cell: string, at: number) =>
    (keys[at] ?? []).reduce(
      (text, [, letters, words]) =>
        text.replace(new RegExp(`(?<!\\p{L})${letters}\\.?\\s*(?=\\d)`, 'giu'), `${words.trim()} `),
      cell,
    );
  return {
    ...table,
    headings: table.headings.map((heading, at) =>
      keys[at].length === 0
        ? heading
        : heading
            .replace(MEANS, '')
            .replace(/\([\s,;]*\)/g, '')
            .trim(),
    ),
    rows: table.rows.map(({ row, cells }) => ({ row, cells: cells.map(inWords) })),
  };
}

/** 'A = left front to right back' above a table: what a heading that ends in the letter is of. */
function withTitleKey(table: SheetTable): SheetTable {
  const means = new Map(
    table.titles.flatMap((title) => [...title.matchAll(MEANS)].map(([, letters, words]) => [letters, words])),
  );
  if (means.size === 0) return table;
  const headings = table.headings.map((heading) => {
    const [, before, letter] = /^(.*\S) (\p{Lu})$/u.exec(heading) ?? [];
    const said = letter === undefined ? undefined : means.get(letter);
    return said === undefined ? heading : `${before} ${said}`;
  });
  return { ...table, headings };
}
