import { type NoteWeights, oddsBy } from '../../forecast/flags/notes/note-odds.js';
import { fitNoteOdds, type JudgedNote } from './fit-note-odds.js';

/** A writer's notes weighed by what the others' notes taught. */
export interface WriterLeftOut {
  readonly writer: string;
  readonly harm: number;
  readonly seen: number;
  readonly harmless: number;
  readonly raised: number;
}

/** Weights alone, each writer left out in turn: how many notes to act on have odds above evens, and how many harmless ones (what is not weighed counts as not). */
export function leaveWritersOut(notes: readonly JudgedNote[]): WriterLeftOut[] {
  return [...new Set(notes.map((n) => n.writer))].map((writer) => {
    const odds = oddsBy(fitNoteOdds(notes.filter((n) => n.writer !== writer)));
    const own = notes.filter((n) => n.writer === writer);
    const count = (harm: boolean, above = false) =>
      own.filter((n) => n.harm === harm && (!above || (odds(n.note) ?? -1) > 0)).length;
    return {
      writer,
      harm: count(true),
      seen: count(true, true),
      harmless: count(false),
      raised: count(false, true),
    };
  });
}

/** models/notes/model-card.md: made of the weights and of what leaving writers out gave. */
export const noteCard = (weights: NoteWeights, tried: readonly WriterLeftOut[]): string => `# Notes as a whole

\`weights.json\`: log odds that a free note tells of something to act on, by its words, pairs of words and pairs with a word
between (${weights.weights.length} features of ${tried.reduce((n, t) => n + t.harm + t.harmless, 0)} typed notes; logistic regression, ridge penalty). Each sentence has its
odds, and the note their mean: one sentence to act on is not drowned by five cheerful ones. Written by \`doorpost fit notes\`
from \`notes.csv\` beside it.

The reader of notes (\`src/forecast/flags/notes\`) goes clause by clause and says what was found and where. The weights only
hold that against the whole: a note of seven words or more whose words are those of harmless notes loses what
would only be looked at (never what cannot wait: skin, pain, feeling, breath, head, hip, a broken device), and one whose
words are those of notes to act on is looked at although no clause says of what. A note of another language is not weighed. What is written is always shown
as written; nothing is kept from a clinician.

## The notes
Invented, typed by hand by several writers as clinicians, families and teachers write; no child's record. 'early' and
'first' were typed while the reader was made, the others by writers who had not seen it. Whether a note asks for something
is their judgement (common practice, no source).

## Weights alone, each writer left out in turn
| Writer | Of notes to act on, odds above evens | Of harmless notes, odds above evens |
|---|---|---|
${tried.map((t) => `| ${t.writer} | ${t.seen} of ${t.harm} | ${t.raised} of ${t.harmless} |`).join('\n')}

Reader and weights together, on a writer of whom neither had seen a note: \`tests/forecast/notes/unseen-writer.test.ts\`.

## Where it ends
English only. Figures all count alike, so what a number says is the reader's. It knows the words of these notes; a clinic
that writes otherwise is read less well, and neither a note nor its absence stands for a look at the child.
`;
