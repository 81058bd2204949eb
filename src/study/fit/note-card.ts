import { oddsBy } from '../../forecast/flags/notes/note-odds.js';
import { fitNoteOdds, type JudgedNote } from './fit-note-odds.js';

/** A writer's notes weighed by what the others' notes taught. */
export interface WriterLeftOut {
  readonly writer: string;
  readonly harm: number;
  readonly seen: number;
  /** Of those to act on that are weighed at all: of what they tell is likeliest what their writer said. */
  readonly weighed: number;
  readonly named: number;
  readonly harmless: number;
  readonly raised: number;
}

/** Weights alone, each writer left out in turn: how many notes to act on have odds above evens, and how many harmless ones (what is not weighed counts as not). */
export function leaveWritersOut(notes: readonly JudgedNote[]): WriterLeftOut[] {
  return [...new Set(notes.map((n) => n.writer))].map((writer) => {
    const weights = fitNoteOdds(notes.filter((n) => n.writer !== writer));
    const [harmBy, kindsBy] = [oddsBy(weights.harm), oddsBy(weights.kinds)];
    const own = notes.filter((n) => n.writer === writer);
    const [harm, harmless] = [own.filter((n) => n.finds !== null), own.filter((n) => n.finds === null)];
    const above = (all: readonly JudgedNote[]) => all.filter((n) => (harmBy(n.note)?.harm ?? -1) > 0).length;
    const likeliest = harm.flatMap(({ note, finds }) => {
      const kinds = Object.entries(kindsBy(note) ?? {}).sort((a, b) => b[1] - a[1]);
      return kinds.length > 0 ? [kinds[0][0] === finds] : [];
    });
    return {
      writer,
      harm: harm.length,
      seen: above(harm),
      weighed: likeliest.length,
      named: likeliest.filter((right) => right).length,
      harmless: harmless.length,
      raised: above(harmless),
    };
  });
}

/** models/notes/model-card.md: made of the weights and of what leaving writers out gave. */
export const noteCard = (
  weights: ReturnType<typeof fitNoteOdds>,
  tried: readonly WriterLeftOut[],
): string => `# Notes as a whole

\`weights.json\`: log odds that a free note tells of something to act on, by its words, pairs of words and pairs with a word
between (${weights.harm.features.split('|').length} features of ${tried.reduce((n, t) => n + t.harm + t.harmless, 0)} typed notes; logistic regression, ridge penalty). Each sentence has its
odds, and the note their mean: one sentence to act on is not drowned by five cheerful ones. Of those to act on, further
weights say of what they tell (${Object.keys(weights.kinds.of).length} kinds, ${weights.kinds.features.split('|').length} features). Written by \`doorpost fit notes\`
from \`notes.csv\` beside it.

The reader of notes (\`src/forecast/flags/notes\`) goes clause by clause and says what was found and where. The weights only
hold that against the whole: a note of seven words or more whose words are those of harmless notes loses what
would only be looked at (never what cannot wait: skin, pain, feeling, breath, head, hip, a broken device), and one whose
words are those of notes to act on is looked at although no clause says of what. What it is likeliest of gives such a
note its kind, and with it how soon it is seen to. A note of another language is not weighed. What is written is always shown
as written; nothing is kept from a clinician.

## The notes
Invented, typed by hand by several writers as clinicians, families and teachers write; no child's record. 'early' and
'first' were typed while the reader was made, the others by writers who had not seen it. Whether a note asks for something
is their judgement (common practice, no source).

## Weights alone, each writer left out in turn
| Writer | Of notes to act on, odds above evens | Of these, where weighed, the kind is right | Of harmless notes, odds above evens |
|---|---|---|---|
${tried.map((t) => `| ${t.writer} | ${t.seen} of ${t.harm} | ${t.named} of ${t.weighed} | ${t.raised} of ${t.harmless} |`).join('\n')}

Reader and weights together, on a writer of whom neither had seen a note: \`tests/forecast/notes/unseen-writer.test.ts\`.

## Where it ends
English only. Figures all count alike, so what a number says is the reader's. It knows the words of these notes; a clinic
that writes otherwise is read less well, and neither a note nor its absence stands for a look at the child.
`;
