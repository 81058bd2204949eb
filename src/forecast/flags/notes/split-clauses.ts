export interface Clause {
  readonly text: string;
  /** True where it goes on from the clause before: after a comma or 'and', not after 'but' or a full stop. */
  readonly continues: boolean;
}

/** A dot after these is no end of a sentence. */
const ABBREVIATIONS = /\b(approx|e\.g|i\.e|rt|lt|med|lat|dr|mr|mrs|ms|vs|re|st|wk|hx)\.$/;

/** The sentences of a text in small letters; none is blank. */
export function sentencesOf(text: string): string[] {
  const sentences: string[] = [''];
  for (const piece of text.split(/(?<=[.!;\n])(?=\s|$)|\n/)) {
    const at = sentences.length - 1;
    if (sentences[at] === '' || ABBREVIATIONS.test(sentences[at].trimEnd())) sentences[at] += piece;
    else sentences.push(piece);
  }
  return sentences.filter((s) => s.trim() !== '');
}

/** Sentences of a plain text, each as its clauses. */
export const splitClauses = (text: string): Clause[][] => sentencesOf(text).map(clausesOf);

/** What a question in a note is answered with where there is nothing; it stays with its question. */
export const NO_FOR_ANSWER = 'no|none|nil|denie[sd]|negative|nein|verneint|non|nie|nee|ontkend|niega|nega';

const JOINERS = new RegExp(
  String.raw`(,|\(|\)|\?(?=\s)(?! (?:${NO_FOR_ANSWER})\b)|\s\/\s|\s\+\s|\s&\s|\band\b|\bund\b|\bet\b|\by\b|(?<!\bsince )\bthen\b(?! (?:fine|ok|good|well|comfortable|settled)\b)|\bbut\b|\bhowever\b|\balthough\b|\bthough\b|\baber\b|\bmais\b|\bpero\b)`,
);

function clausesOf(sentence: string): Clause[] {
  const parts = sentence.split(JOINERS);
  const clauses: Clause[] = [];
  let continues = false;
  for (let i = 0; i < parts.length; i += 2) {
    if (parts[i].trim() !== '') clauses.push({ text: parts[i], continues });
    const joiner = parts[i + 1] ?? '';
    continues = /^\s*(,|\/|\+|&|and|und|et|y)\s*$/.test(joiner);
  }
  return clauses;
}
