import { foldText, phrasesOf } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { vocabularies } from '../headings/read-words.js';
import { languages, type Vocabulary } from '../headings/vocabulary.js';

export const nothingWords = wordSet((v) => v.nothing);
const doubtSet = wordSet((v) => v.doubt);
const doubtWords = [...doubtSet].sort((a, b) => b.length - a.length);
export const yesWords = wordSet((v) => v.yes);
export const noWords = wordSet((v) => v.no);
export const totalWords = wordSet((v) => v.totals);
export const leftWords = wordSet((v) => v.left);
export const rightWords = wordSet((v) => v.right);
export const bothWords = wordSet((v) => v.both);
export const sexWords = new Set([...wordSet((v) => v.female), ...wordSet((v) => v.male)]);

/** Dashes, dots and question marks alone. */
export const isDash = (cell: string): boolean => /^[-–—./\\?\s]*$/.test(cell);

/** Not measured, did not attend, a dash: the cell holds nothing. */
export function saysNothing(cell: string): boolean {
  if (cell.length > LONGEST_NOTHING || /\d/.test(cell)) return false;
  const text = cell.trim();
  return isDash(text) || nothingWords.has(foldText(text));
}
/** No such word has a figure in it, and none is longer than twice its folded letters. */
const LONGEST_NOTHING = 2 * Math.max(...[...nothingWords].map((word) => word.length));

/** 'n/a in plaster', 'DNA - rang': no figure, and the first words say that there is none. */
export function saysNotMeasured(cell: string): boolean {
  if (/\d/.test(cell) || cell.length > 60) return false;
  const words = foldText(cell).split(' ');
  return [1, 2, 3].some((n) => nothingWords.has(words.slice(0, n).join(' ')));
}

/** Whether a remark beside a value says that it is not sure. */
export const saysDoubt = (remark: string): boolean => {
  const text = ` ${foldText(remark)} `;
  return /[?~≈*±<>]/.test(remark) || doubtWords.some((word) => text.includes(` ${word} `));
};

/** 'Estimated' and nothing else: said of the size beside it. */
export const isDoubt = (cell: string): boolean =>
  cell !== '' && cell.length <= 30 && doubtSet.has(foldText(cell));

/** One of named word lists by the word in a cell: 'zu klein' is outgrown. The whole cell has to be the word. */
export const wordIn = <L extends NamedLists>(cell: string, lists: L): keyof Vocabulary[L] | null =>
  ((cell.length > 80 ? undefined : namedWords[lists].get(foldText(cell))) as keyof Vocabulary[L]) ?? null;

const NAMED = ['verdicts', 'endReasons', 'deviceStates', 'childStates'] as const;
type NamedLists = (typeof NAMED)[number];
/** Of a word that two lists have the first language's, and in it the first list's. */
const namedWords = Object.fromEntries(
  NAMED.map((lists) => {
    const ids = new Map<string, string>();
    for (const language of languages)
      for (const [id, list] of Object.entries(vocabularies[language][lists]))
        for (const phrase of phrasesOf(list)) if (!ids.has(phrase)) ids.set(phrase, id);
    return [lists, ids];
  }),
) as Record<NamedLists, Map<string, string>>;

/** The side a cell says, where it says nothing else. */
export function sideIn(cell: string): 'left' | 'right' | 'both' | null {
  const word = foldText(cell);
  if (word === '') return null;
  if (bothWords.has(word)) return 'both';
  if (leftWords.has(word)) return 'left';
  return rightWords.has(word) ? 'right' : null;
}

/** The one word of a text that says a side, 'Right' of 'Right leg'; null where none does or both sides are said. */
export function sideWordIn(text: string): string | null {
  const words = text.split(/[\s,.:;()/-]+/);
  const left = words.filter((word) => leftWords.has(foldText(word)));
  const right = words.filter((word) => rightWords.has(foldText(word)));
  const said = [...left, ...right];
  return said.length > 0 && (left.length === 0 || right.length === 0) ? said[0] : null;
}
