import type { TextTable } from '../../exchange/csv/read-table.js';
import { noteFeatures } from '../../forecast/flags/notes/note-features.js';
import type { NoteWeights } from '../../forecast/flags/notes/note-odds.js';

export interface JudgedNote {
  /** Who typed it: a writer is left out whole when the weights are tried. */
  readonly writer: string;
  /** Does it tell of something to act on? */
  readonly harm: boolean;
  readonly note: string;
}

/** The notes of models/notes/notes.csv: writer, harm (yes or no), note. */
export const judgedNotes = (table: TextTable): JudgedNote[] =>
  [...table.rows].map(({ cells: [writer, harm, note] }) => ({ writer, harm: harm === 'yes', note }));

/** A feature seen in one sentence only says nothing of others. */
const LEAST_SENTENCES = 2;
/** Strength of the ridge penalty, in notes; tried on writers left out. */
const RIDGE = 0.5;
const STEPS = 600;
const RATE = 0.03;

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

/**
 * Logistic regression on the mean odds of a note's sentences with a ridge penalty, by Adam over all notes at once; the same
 * figures on every run.
 */
export function fitNoteOdds(notes: readonly JudgedNote[]): NoteWeights {
  const ofNote = notes.map(({ note }) => noteFeatures(note));
  const seen = new Map<string, number>();
  for (const features of ofNote.flat()) for (const f of features) seen.set(f, (seen.get(f) ?? 0) + 1);
  const names = [...seen].filter(([, count]) => count >= LEAST_SENTENCES).map(([name]) => name);
  names.sort();
  const index = new Map(names.map((name, i) => [name, i]));
  const bias = names.length;
  const rows = ofNote.map((sentences) =>
    sentences.map((features) => Int32Array.of(...[...features].flatMap((f) => index.get(f) ?? []), bias)),
  );
  const w = new Float64Array(bias + 1);
  const [first, second, gradient] = [
    new Float64Array(w.length),
    new Float64Array(w.length),
    new Float64Array(w.length),
  ];
  for (let step = 1; step < STEPS; step++) {
    for (let i = 0; i < w.length; i++) gradient[i] = (RIDGE * w[i]) / notes.length;
    for (const [i, sentences] of rows.entries())
      addMisses(gradient, w, sentences, Number(notes[i].harm), notes.length);
    const [unbiasFirst, unbiasSecond] = [1 - 0.9 ** step, 1 - 0.999 ** step];
    for (let i = 0; i < w.length; i++) {
      const g = gradient[i];
      first[i] = 0.9 * first[i] + 0.1 * g;
      second[i] = 0.999 * second[i] + 0.001 * g * g;
      w[i] -= (RATE * (first[i] / unbiasFirst)) / (Math.sqrt(second[i] / unbiasSecond) + 1e-8);
    }
  }
  const rounded = [...w].map((v) => Number(v.toFixed(2)));
  return { intercept: rounded[bias], features: names.join('|'), weights: rounded.slice(0, bias) };
}
