import shipped from '../../../../models/notes/weights.json' with { type: 'json' };
import { noteFeatures } from './note-features.js';

/** Weights of a logistic regression. */
export interface NoteWeights {
  readonly intercept: number;
  /** Joined by '|', in the order of `weights`. */
  readonly features: string;
  readonly weights: readonly number[];
}

/** What is shorter says one thing, and its clause is read; a few words' odds must not overrule it. */
const FEWEST_WORDS = 7;

/** Less of its words known, and a note is in another language or about something else: it is not weighed. */
const KNOWN_SHARE = 0.5;

/**
 * Log odds that a note tells of something to act on, by the words of notes whose answer is known (`models/notes`); null
 * where it is short or too few of its words are known. Each sentence has its odds and the note their mean, so that one
 * sentence to act on is not drowned by five cheerful ones.
 */
export function oddsBy(model: NoteWeights): (note: string) => number | null {
  const weights = new Map(model.features.split('|').map((feature, i) => [feature, model.weights[i]]));
  return (note) => {
    const sentences = noteFeatures(note);
    const words = [...new Set(sentences.flatMap((s) => [...s]))].filter((f) => !f.includes(' '));
    const known = words.filter((w) => weights.has(w));
    if (words.length < FEWEST_WORDS || known.length < KNOWN_SHARE * words.length) return null;
    const odds = sentences.map((s) => {
      let sum = model.intercept;
      for (const f of s) sum += weights.get(f) ?? 0;
      return Math.exp(sum);
    });
    return Math.log(odds.reduce((sum, o) => sum + o, 0) / odds.length);
  };
}

export const noteOdds = oddsBy(shipped);
