import type { TextTable } from '../../exchange/csv/read-table.js';
import type { FindingKind } from '../../forecast/flags/finding.js';
import { noteFeatures } from '../../forecast/flags/notes/note-features.js';
import type { NoteWeights } from '../../forecast/flags/notes/note-odds.js';

export interface JudgedNote {
  /** Who typed it: a writer is left out whole when the weights are tried. */
  readonly writer: string;
  /** Of what it tells that asks for somebody; null where of nothing. */
  readonly finds: FindingKind | null;
  readonly note: string;
}

/** The notes of models/notes/notes.csv: writer, what it tells of (empty where it asks for nothing), note. */
export const judgedNotes = (table: TextTable): JudgedNote[] =>
  [...table.rows].map(({ cells: [writer, finds, note] }) => ({
    writer,
    finds: finds === '' ? null : (finds as FindingKind),
    note,
  }));

/** A feature seen in one sentence only says nothing of others; of what a note tells there are fewer notes to learn from. */
const LEAST_SENTENCES = { harm: 2, kinds: 6 };
/** Of fewer notes a kind is not taught. */
const LEAST_NOTES = 25;
/** Strength of the ridge penalty, in notes; tried on writers left out. */
const RIDGE = 0.5;
const STEPS = 60;
const RATE = 0.1;

/** What one note adds to the gradient: a sentence answers for the note by its share of the odds. */
function addMisses(
  gradient: Float64Array,
  w: Float64Array,
  sentences: readonly Int32Array[],
  harm: number,
  notes: number,
): void {
  const odds = sentences.map((s) => {
    let sum = 0;
    for (const f of s) sum += w[f];
    return Math.exp(sum);
  });
  const all = odds.reduce((sum, o) => sum + o, 0);
  const mean = all / odds.length;
  const miss = mean / (1 + mean) - harm;
  sentences.forEach((s, k) => {
    const share = (miss * odds[k]) / all / notes;
    for (const f of s) gradient[f] += share;
  });
}

/** Whether a note asks for something, and of what it tells where it does. */
export function fitNoteOdds(notes: readonly JudgedNote[]): {
  readonly harm: NoteWeights;
  readonly kinds: NoteWeights;
} {
  const harmful = notes.filter((n) => n.finds !== null);
  const kinds = [...new Set(harmful.map((n) => n.finds!))].filter(
    (kind) => harmful.filter((n) => n.finds === kind).length >= LEAST_NOTES,
  );
  return {
    harm: fitAnswers(notes, LEAST_SENTENCES.harm, [['harm', (n) => n.finds !== null]]),
    kinds: fitAnswers(
      harmful,
      LEAST_SENTENCES.kinds,
      kinds.map((kind) => [kind, (n) => n.finds === kind] as const),
    ),
  };
}

/** A note's features, made once though it is weighed for every writer left out. */
function featuresOf(of: JudgedNote): Set<string>[] {
  const made = before.get(of) ?? noteFeatures(of.note);
  before.set(of, made);
  return made;
}
const before = new WeakMap<JudgedNote, Set<string>[]>();

function fitAnswers(
  notes: readonly JudgedNote[],
  least: number,
  answers: readonly (readonly [string, (note: JudgedNote) => boolean])[],
): NoteWeights {
  const ofNote = notes.map(featuresOf);
  const seen = new Map<string, number>();
  for (const features of ofNote.flat()) for (const f of features) seen.set(f, (seen.get(f) ?? 0) + 1);
  const names = [...seen].filter(([, count]) => count >= least).map(([name]) => name);
  names.sort();
  const index = new Map(names.map((name, i) => [name, i]));
  const rows = ofNote.map((sentences) =>
    sentences.map((features) =>
      Int32Array.of(...[...features].flatMap((f) => index.get(f) ?? []), names.length),
    ),
  );
  const of = answers.map(([answer, is]) => {
    const w = regress(
      rows,
      notes.map((n) => Number(is(n))),
      names.length + 1,
    );
    return [answer, { intercept: w[names.length], weights: w.slice(0, names.length) }] as const;
  });
  return { features: names.join('|'), of: Object.fromEntries(of) };
}

/**
 * Logistic regression on the mean odds of a note's sentences with a ridge penalty, by Adam over all notes at once; the same
 * figures on every run.
 */
function regress(
  rows: readonly (readonly Int32Array[])[],
  answers: readonly number[],
  size: number,
): number[] {
  const [w, first, second, gradient] = [0, 1, 2, 3].map(() => new Float64Array(size));
  for (let step = 1; step <= STEPS; step++) {
    for (let i = 0; i < size; i++) gradient[i] = (RIDGE * w[i]) / rows.length;
    for (const [i, sentences] of rows.entries()) addMisses(gradient, w, sentences, answers[i], rows.length);
    const [unbiasFirst, unbiasSecond] = [1 - 0.9 ** step, 1 - 0.999 ** step];
    for (let i = 0; i < size; i++) {
      const g = gradient[i];
      first[i] = 0.9 * first[i] + 0.1 * g;
      second[i] = 0.999 * second[i] + 0.001 * g * g;
      w[i] -= (RATE * (first[i] / unbiasFirst)) / (Math.sqrt(second[i] / unbiasSecond) + 1e-8);
    }
  }
  return [...w].map((v) => Number(v.toFixed(2)));
}
