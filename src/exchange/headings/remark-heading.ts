import { foldText, phrasesOf } from './fold-words.js';
import { vocabularies } from './phrase-table.js';

const phrases = (list: 'remarks' | 'skin'): ReadonlySet<string> =>
  new Set(Object.values(vocabularies).flatMap((v) => phrasesOf(v[list])));
const [remarks, skin] = [phrases('remarks'), phrases('skin')];
const within = (heading: string, words: ReadonlySet<string>): boolean =>
  words.has(heading) || heading.split(' ').some((word) => words.has(word));

/** Does a column under this heading hold remarks on a visit, or say how the skin was at it? 'Skin (L/R)', 'OT comments'. */
export function remarkHeading(heading: string): 'remark' | 'skin' | null {
  const folded = foldText(heading);
  if (within(folded, skin)) return 'skin';
  return within(folded, remarks) ? 'remark' : null;
}
