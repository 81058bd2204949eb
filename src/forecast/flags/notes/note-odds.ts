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
const FEWEST_WORDS = 6;

/** Less of its words known, and a note is in another language or about something else: it is not weighed. */
const KNOWN_SHARE = 0.5;

/**
 * Log odds that a note as a whole tells of something to act on, by the words of notes whose answer is known
 * (`models/notes`); null where it is short or too few of its words are known.
 */
export function oddsBy(model: NoteWeights): (note: string) => number | null {
  const weights = new Map(model.features.split('|').map((feature, i) => [feature, model.weights[i]]));
  return (note) => {
    const features = [...noteFeatures(note)];
    const words = features.filter((f) => !f.includes(' '));
    const known = words.filter((w) => weights.has(w));
    if (words.length < FEWEST_WORDS || known.length < KNOWN_SHARE * words.length) return null;
    return features.reduce((sum, f) => sum + (weights.get(f) ?? 0), model.intercept);
  };
}

export const noteOdds = oddsBy(shipped);
