import { lacksVowels, lettersApart } from '../../../statistics/letters-apart.js';
import words from './note-words.json' with { type: 'json' };

const ONES = 'one two three four five six seven eight nine ten'.split(' ');
const NUMBERS: Readonly<Record<string, number>> = {
  ...Object.fromEntries(ONES.map((word, i) => [word, i + 1])),
  ...{ fifteen: 15, twenty: 20, thirty: 30, forty: 40, fifty: 50, sixty: 60 },
  ...{ zehn: 10, dreissig: 30, vierzig: 40, dix: 10, quinze: 15, trente: 30 },
  ...{ diez: 10, quince: 15, treinta: 30, cuarenta: 40 },
};
const SPANS: readonly [RegExp, string][] = [
  [/\b(grade|stage|category|cat|gr) iv\b/g, '$1 4'],
  [/\b(grade|stage|category|cat|gr) iii\b/g, '$1 3'],
  [/\b(grade|stage|category|cat|gr) ii\b/g, '$1 2'],
  [/\b(grade|stage|category|cat|gr) i\b/g, '$1 1'],
  [/\bw\/out\b|\bw\/o\b/g, 'without'],
  [/\bw\/(?= ?[a-z])|\bw\.(?= )/g, 'with '],
  [/\bc\/o\b/g, 'complains of'],
  [/@/g, ' at '],
  [/ = /g, ' is '],
  [/\bhosp\b/g, 'hospital'],
  [/\b(?:mummy|mommy|mammy)(?=s?\b)/g, 'mum'],
  [/\bdaddy(?=s?\b)/g, 'dad'],
  [/\bnan(?:a|na|ny)(?=s?\b)/g, 'nan'],
  [/\byrs?(?= ago\b)/g, 'years'],
  [/\blast yr\b/g, 'last year'],
  [/\bmths?(?= ago\b)/g, 'months'],
  [/\b(?:an? )?(?:sort|kind) of (?:an? )?/g, ''],
  [/\bthru\b/g, 'through'],
  [/\b(?:isnt|arent|wasnt|werent|aint)\b/g, 'not'],
  [/\bgr (?=[1-4]\b)/g, 'grade '],
  [/\+{2,}/g, ' plusplus '],
  [
    /\b(brother|sister|twin|sibling|cousin)s? \((?:aged? )?\d{1,2} ?(?:y|yrs?|years?|m|mths?|months?)?\)/g,
    '$1',
  ],
  [/(?<![a-z0-9])\+ ?ve\b/g, 'positive'],
  [/(?<![a-z0-9])- ?ve\b/g, 'negative'],
  [/>=? ?(?=\d)/g, ' over '],
  [/\bp ?[&+] ?n\b/g, 'pins needles'],
  [/\bwarm ?[,&+] ?pink\b/g, 'warm and pink'],
  [/\bpink ?[,&+] ?warm\b/g, 'pink and warm'],
  // A fracture, of a bone or of a shell.
  [/#(?!\s?\d)/g, ' fracture '],
  [/\bpins ?(?:and|&|\+|n|\/|-) ?needles\b/g, 'pins needles'],
  // As times are written in notes: 45/60 minutes, 2/24 hours.
  [/\b(\d+)\s?\/60\b/g, '$1 min'],
  [/\b(\d+)\s?\/24\b/g, '$1 hours'],
  [/\b(\d+)\s?\/52\b/g, '$1 weeks'],
  // The seventh and the twelfth part may be a date: a span only beside a word of time.
  [/\b(\d+)\s?\/7(?= (?:ago|post|since|later))|(?<=\b(?:for|past|last) )(\d+)\s?\/7\b/g, '$1$2 days'],
  [/\b(\d+)\s?\/12(?= (?:ago|post|since|later))|(?<=\b(?:for|past|last) )(\d+)\s?\/12\b/g, '$1$2 months'],
  [
    /\b(red|pink|blue|black|white|green|yellow|purple|orange) (?:and|&) (red|pink|blue|black|white|green|yellow|purple|orange)\b/g,
    '$1 $2',
  ],
  [/\b(?:(?:three|3) quarters? of an|3\/4 (?:of an )?)\s?h(?:ou)?rs?\b/g, '45 min'],
  [/\b(?:a )?quarter of an hour\b/g, '15 min'],
  [/\b(?:an hour and a half|one and a half hours?|1 ?1\/2 h(?:ou)?rs?)\b/g, '90 min'],
  [
    /\b(?:half (?:an? |of an )?h(?:ou)?r|1\/2 an hour|1\/2 h(?:ou)?r|0\.5 h(?:ou)?rs?|(?:eine )?halbe stunde|(?:une )?demi[ -]heure|media hora)\b/g,
    '30 min',
  ],
  [
    /\b(?:(?:a good|a whole|a full|nearly an|best part of an) hour|an h(?:ou)?r|one hour|eine stunde|une heure|una hora|hourlong)\b/g,
    '60 min',
  ],
  [/\b(?:a )?couple of hours\b/g, '120 min'],
  [/\b(?:a few|several|many) hours\b/g, '180 min'],
];

const TENS_AND_ONES = new RegExp(`\\b(twenty|thirty|forty|fifty)[ -](${ONES.join('|')})\\b`, 'g');

/** 'Off 14:00, heel still pink at 14:50': fifty minutes. A clock of twelve hours goes round. */
const OFF_AND_SEEN =
  /\boff(?: at| @)? (\d{1,2})[:.](\d{2})\b([^.;\n]{0,80}?)(?:at|@) (\d{1,2})[:.](\d{2})\b/g;

/** A note in plain small letters: no accents, no apostrophes, numbers as digits, spans of words as minutes, slips of spelling put right. */
export function plainText(note: string): string {
  let text = note
    .replace(/½/g, '1/2')
    .replace(/(\d[a-z]*)\s*(?:[-=]*>|[→➔⇒])\s*(?=\d)/gi, '$1 to ')
    .replace(/[-=]+>|[→➔⇒]/g, '; ')
    .replace(/[↑▲]+/g, ' increased ')
    .replace(/[↓▼]+/g, ' reduced ')
    .replace(/(?<!\w)[∅Ø](?=\s)/g, 'no')
    .replace(/[✓✔]/g, ' ok ')
    .replace(/(\d)\s*['′’](?![a-z])/gi, '$1 min')
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/ß/g, 'ss')
    .replace(/['’‘`"“”«»]/g, '')
    .replace(/[–—]/g, '-');
  text = text.replace(OFF_AND_SEEN, (_, h, min, between, h2, min2) => {
    const minutes = 60 * (Number(h2) - Number(h)) + Number(min2) - Number(min);
    return `${between} ${minutes >= 0 ? minutes : minutes + 720} min`;
  });
  for (const [pattern, span] of SPANS) text = text.replace(pattern, span);
  text = text.replace(TENS_AND_ONES, (_, tens, ones) => String(NUMBERS[tens] + NUMBERS[ones]));
  text = text.replace(/\b[a-z]+\b/g, (w) => (Object.hasOwn(NUMBERS, w) ? String(NUMBERS[w]) : w));
  return text.replace(/[a-z]{4,}/g, (w) => {
    const before = respeltBefore.get(w) ?? respelt(w);
    if (respeltBefore.size < MOST_WORDS) respeltBefore.set(w, before);
    return before;
  });
}

/** Words met before, each read once; a clinic's notes use few. */
const respeltBefore = new Map<string, string>();
const MOST_WORDS = 20_000;

const wordsOf = (...lists: readonly (readonly string[])[]): string[] =>
  lists.flat().flatMap((phrase) => phrase.replace(/\*/g, '').split(/[\s-]+/));

/** What a slip of spelling may have been meant for: every long word that names a finding by itself, and the commonest beside them. */
export const spelling: readonly string[] = [
  ...new Set([
    ...words.spelling,
    ...Object.values(words.findings)
      .flat()
      .filter((w) => /^[a-z]{7,}$/.test(w)),
  ]),
];
const known = new Set([
  ...spelling,
  ...wordsOf(words.notMisspelt, words.negation.before, ...Object.values(words.findings)),
]);
const stems = Object.values(words.findings)
  .flat()
  .concat(words.places)
  .filter((p) => /^[a-z]{4,}\*$/.test(p))
  .map((p) => p.slice(0, -1));

const isTerm = (word: string): boolean => known.has(word) || stems.some((stem) => word.startsWith(stem));

/** 'eryhtema' is read as 'erythema'; a word that is one already stays. */
export function respelt(word: string): string {
  if (isTerm(word)) return word;
  // 'Roetung': an umlaut where the keyboard has none.
  const umlaut = word.replace(/([aou])e/g, '$1');
  if (umlaut !== word && isTerm(umlaut)) return umlaut;
  const short = spelling.find((w) => w.length > word.length && lacksVowels(word, w));
  if (short !== undefined) return short;
  if (word.length < 6) return word;
  const most = word.length >= 9 ? 2 : 1;
  const near = spelling.find(
    (w) => Math.abs(w.length - word.length) <= most && w[0] === word[0] && lettersApart(word, w) <= most,
  );
  return near ?? word;
}
