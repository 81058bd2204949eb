import { foldText, phrasesOf } from '../headings/fold-words.js';
import { vocabularies } from '../headings/read-words.js';
import { languages } from '../headings/vocabulary.js';
import { saysNothing } from './cell-words.js';
import { sexCell } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';

/** How a column's words for sex are read, decided over the whole column: 'M' beside 'J' is a Mädchen or a meisje. */
export function sexReader(
  taken: TakenTable,
  all: readonly TakenTable[],
  language: readonly string[],
): (cell: string) => string | null {
  const counts = new Map<string, number>();
  // All tables together: one of a single child says little of what the clinic writes.
  for (const { table, columns } of all) {
    for (const row of table.rows) {
      const { text } = sexCell(columns, row);
      if (!saysNothing(text)) counts.set(foldText(text), (counts.get(foldText(text)) ?? 0) + 1);
    }
  }
  const words = new Set([...counts.keys()].map((w) => w[0] ?? ''));
  const short = [...counts.keys()].every((w) => w.length <= 2);
  const has = (...letters: string[]) => letters.every((l) => words.has(l));
  const beside: SexWords = { has, language };
  const read = new Map<string, string | null>();
  for (const [word, cells] of counts) {
    let sex = short && ['m', 'v', 'g'].includes(word) ? letterSex(word, beside) : plainSex(word);
    if (sex === null) {
      const answer = taken.ask({
        id: `sex:${word}`,
        asks: `What does "${word}" of the sex mean?`,
        examples: [word],
        cells,
        suggested: null,
      });
      sex = answer;
    }
    read.set(word, sex);
  }
  return (cell) => (saysNothing(cell) ? null : (read.get(foldText(cell)) ?? null));
}

/** First letters that stand in the column, and the languages the sheet may be in. */
interface SexWords {
  readonly has: (...letters: string[]) => boolean;
  readonly language: readonly string[];
}

/** A letter that means one sex in one language and the other in another: by what stands beside it. */
function letterSex(word: string, words: SexWords): 'female' | 'male' | null {
  const { has, language } = words;
  const m = sexOfM(words);
  if (word === 'm')
    return m ?? (has('v') || language.some((l) => ['es', 'nl', 'de'].includes(l)) ? null : 'male');
  if (word === 'v') return m && (m === 'female' ? 'male' : 'female');
  if (has('g', 'f')) return 'male';
  if (has('g', 'b')) return 'female';
  return language.length === 1 && language[0] === 'fr' ? 'male' : null;
}

/** 'M' beside 'F' is a male; beside a boy's letter a Mädchen or a meisje; beside 'V' by the language. */
function sexOfM({ has, language }: SexWords): 'female' | 'male' | null {
  if (has('m', 'f') || has('m', 'w')) return 'male';
  if (['j', 'b', 'h', 'k'].some((boy) => has('m', boy))) return 'female';
  if (!has('m', 'v') || language.length !== 1) return null;
  if (language[0] === 'es') return 'female';
  return language[0] === 'nl' ? 'male' : null;
}

function plainSex(word: string): string | null {
  if (
    /^(u|x|d|not stated|not known|unknown|other|unbekannt|inconnu|divers|onbekend|desconocido|sconosciuto|indeterminate|nd)$/.test(
      word,
    )
  )
    return 'unknown';
  const female = languages.some((l) => phrasesOf(vocabularies[l].female).includes(word));
  const male = languages.some((l) => phrasesOf(vocabularies[l].male).includes(word));
  if (female !== male) return female ? 'female' : 'male';
  if (word === 'f') return 'female';
  return word === 'm' ? 'male' : null;
}
