import { headingCandidates } from '../../headings/heading-meaning.js';
import { type Meaning, meaningText } from '../../headings/meaning.js';
import { cellSizes } from '../cell-size.js';
import { saysNothing } from '../cell-words.js';
import type { SheetTable } from '../grid.js';

/** One size of a cell that holds several: 'Foot L', '190'. */
interface Pooled {
  readonly heading: string;
  readonly size: string;
}

/**
 * A column with several sizes in a cell, each with its name ('Foot L 190, R 192; calf L 245'), as a column a size. Only where
 * nearly every filled cell is such a list from end to end: words left over may say something of the sizes.
 */
export function withPooledApart(table: SheetTable): SheetTable {
  let made = table;
  for (let at = table.headings.length - 1; at >= 0; at--) made = apart(made, at);
  return made;
}

function apart(table: SheetTable, at: number): SheetTable {
  const cells = table.rows.map(({ cells: row }) => (row[at] ?? '').trim());
  const filled = cells.filter((cell) => !saysNothing(cell));
  const [first] = filled;
  if (first === undefined || pooledIn(first).length < 2) return table;
  const lists = cells.map((cell) => (saysNothing(cell) ? [] : pooledIn(cell)));
  if (lists.filter((list) => list.length > 0).length < filled.length * 0.8) return table;
  const headings = [...new Set(lists.flatMap((list) => list.map(({ heading }) => heading)))];
  // A cell that is no such list stays where it stood.
  const rest = lists.some((list, n) => list.length === 0 && !saysNothing(cells[n]))
    ? [table.headings[at]]
    : [];
  return {
    ...table,
    headings: [...table.headings.slice(0, at), ...rest, ...headings, ...table.headings.slice(at + 1)],
    rows: table.rows.map(({ row, cells: own }, n) => ({
      row,
      cells: [
        ...Array.from({ length: at }, (_, index) => own[index] ?? ''),
        ...rest.map(() => (lists[n].length === 0 ? cells[n] : '')),
        ...headings.map((heading) => lists[n].find((one) => one.heading === heading)?.size ?? ''),
        ...own.slice(at + 1),
      ],
    })),
  };
}

/** The sizes of a cell with their names; none unless all have one. A side alone ('R 192') goes on with the measure before it. */
function pooledIn(cell: string): Pooled[] {
  if (!/\p{L}/u.test(cell)) return [];
  const found = new Map<string, { readonly heading: string; size: string }>();
  let before: Reading | null = null;
  let last = '';
  for (const { text, side, name } of cellSizes(cell)) {
    if (side === null && name === '' && before !== null) {
      // '190/192' behind a name: of both sides.
      const pair = found.get(last);
      if (pair === undefined || pair.size.includes('/')) return [];
      pair.size = `${pair.size}/${text}`;
      continue;
    }
    const meaning: Reading | null = side === null ? sizeNamed(name) : ofSide(before, side);
    if (meaning === null) return [];
    before = meaning;
    last = meaningText(meaning);
    // The same size twice in a cell: nobody can tell which holds.
    if (found.has(last)) return [];
    found.set(last, { heading: last.replace(/ /g, '_').replace(/_row$/, ''), size: text });
  }
  return [...found.values()];
}

type Reading = Extract<Meaning, { kind: 'reading' }>;
const ofSide = (before: Reading | null, side: Reading['side']): Reading | null =>
  before === null ? null : { ...before, side };

function sizeNamed(words: string): Reading | null {
  const [best] = headingCandidates(words.trim());
  return best?.meaning.kind === 'reading' && best.strength >= 0.85 && best.unknownWords === 0
    ? best.meaning
    : null;
}
