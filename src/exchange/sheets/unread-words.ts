import { foldWords } from '../headings/fold-words.js';
import { allWords } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { isWordOfDevice } from './spoken-device.js';

/** The words of a cell that are in none of the lists by which cells are read; a letter or two stand for other words. */
const unread = remembered((cell): readonly string[] =>
  /\p{L}/u.test(cell)
    ? foldWords(cell).filter(
        (word) => /^\p{L}{3}/u.test(word) && !allWords.has(word) && !isWordOfDevice(word),
      )
    : [],
);

/** The words of a cell that was read which no reader knows, but for those that were `told`. */
export function unreadWords(cell: string, told = ''): string {
  const words = unread(cell);
  if (words.length === 0) return '';
  const said = new Set(foldWords(told));
  return words.filter((word) => !said.has(word)).join(' ');
}
