import shipped from '../../../../models/notes/weights.json' with { type: 'json' };
import type { FindingKind } from '../finding.js';
import { noteFeatures } from './note-features.js';

/** Weights of logistic regressions on the same features, by what each answers. */
export interface NoteWeights {
  /** Joined by '|', in the order of `weights`. */
  readonly features: string;
  readonly of: Readonly<Record<string, { readonly intercept: number; readonly weights: readonly number[] }>>;
}

/** What is shorter says one thing, and its clause is read; a few words' odds must not overrule it. */
const FEWEST_WORDS = 7;

/** Less of its words known, and a note is in another language or about something else: it is not weighed. */
const KNOWN_SHARE = 0.5;

/**
 * Log odds of each answer by the words of notes whose answer is known (`models/notes`); null where a note is short or too
 * few of its words are known. Each sentence has its odds and the note their mean, so that one sentence to act on is not
 * drowned by five cheerful ones.
 */
export function oddsBy(model: NoteWeights): (note: string) => Readonly<Record<string, number>> | null {
  const at = new Map(model.features.split('|').map((feature, i) => [feature, i]));
  return (note) => {
    const sentences = noteFeatures(note);
    const words = [...new Set(sentences.flatMap((s) => [...s]))].filter((f) => !f.includes(' '));
    const known = words.filter((w) => at.has(w));
    if (words.length < FEWEST_WORDS || known.length < KNOWN_SHARE * words.length) return null;
    const places = sentences.map((s) => [...s].flatMap((f) => at.get(f) ?? []));
    return Object.fromEntries(
      Object.entries(model.of).map(([answer, { intercept, weights }]) => {
        const odds = places.map((s) => Math.exp(s.reduce((sum, f) => sum + weights[f], intercept)));
        return [answer, Math.log(odds.reduce((sum, o) => sum + o, 0) / odds.length)];
      }),
    );
  };
}

const harmBy = oddsBy(shipped.harm);
const kindsBy = oddsBy(shipped.kinds);

/** Log odds that a note tells of something to act on. */
export const noteOdds = (note: string): number | null => harmBy(note)?.harm ?? null;

/** Of what a note tells most likely, where it tells of something to act on: kind and log odds. */
export const likeliestKind = (
  note: string,
  among: (kind: FindingKind) => boolean,
): { readonly kind: FindingKind; readonly odds: number } | undefined =>
  Object.entries(kindsBy(note) ?? {})
    .map(([kind, odds]) => ({ kind: kind as FindingKind, odds }))
    .filter(({ kind }) => among(kind))
    .sort((a, b) => b.odds - a.odds)[0];
