import type { Finding } from '../finding.js';
import { patterns, type Term } from './note-patterns.js';
import { findAll, type Match } from './phrases.js';

/** The part of the body named nearest to a word. */
export function placeOf(clause: string, term: Term): string | null {
  const distance = (m: Match) => Math.min(Math.abs(m.at - term.end), Math.abs(term.at - m.end));
  const [nearest] = findAll(patterns.places, clause).sort((a, b) => distance(a) - distance(b));
  return nearest?.text ?? null;
}

/** Left or right; null where a clause names none or both. */
export function sideOf(clause: string): Finding['side'] {
  const left = /(?<![a-z0-9])(left|lt|l|links|linke[nrs]?|gauche|izquierd[oa])(?![a-z0-9])/.test(clause);
  const right = /(?<![a-z0-9])(right|rt|r|rechts|rechte[nrs]?|droite?|derech[oa])(?![a-z0-9])/.test(clause);
  if (left === right) return null;
  return left ? 'left' : 'right';
}
