import { FADES_WITHIN_MINUTES } from '../../../records/skin-check.js';
import type { FindingKind } from '../finding.js';
import { patterns } from './note-patterns.js';
import { isResolved } from './past-terms.js';
import { has } from './phrases.js';

export const isMark = ({ kind }: { readonly kind: FindingKind }) =>
  kind === 'skin-mark' || kind === 'skin-lasting';

/** 'Gone by morning', 'there until lunch': hours, whatever else is said of it. */
const TO_A_TIME_OF_DAY =
  /\b(?:when (?:he|she|they|we) (?:woke|wakes|got up|gets up)|on waking|first thing)\b|\b(?:by|until|till|before|after|at) (?:the )?(?:next )?(?:morning|lunch(?:time)?|dinner(?:time)?|tea(?:time)?|supper|bed(?:time)?|evening|night|home ?time|afternoon|break(?:time)?|school finishes)\b/;

/** 'Blanches slowly', 'takes most of the evening'. */
const SLOWLY =
  /\b(?:(?:blanch|fad|settl|go|clear|resolv|disappear)\w* (?:very |quite |rather )?slow\w*|slow\w* (?:to |in |at )?(?:blanch|fad|settl|go|clear|resolv|disappear|subsid|calm|return)\w*|(?:most of|all|half|rest of|whole|entire) (?:the )?(?:morning|day|evening|afternoon|night|lesson))\b/;

/** 'Since Monday', 'since last night'. */
const SINCE_A_DAY =
  /\b(?:since|from) (?:the |last )?(?:mon|tue|wed|thu|fri|sat|sun|yest|night|weekend|half term|morning|week)\w*/;

export const isLasting = (clause: string): boolean =>
  [TO_A_TIME_OF_DAY, SLOWLY, SINCE_A_DAY].some((p) => p.test(clause)) || has(patterns.lasting, clause);

/** Lasting, harmless (null), or redness of which nobody says how long it stays. */
export function markKind(clause: string, minutes: number | null): 'skin-lasting' | 'skin-mark' | null {
  const lasting = isLasting(clause);
  if ((minutes !== null && minutes > FADES_WITHIN_MINUTES) || lasting) return 'skin-lasting';
  if (has(patterns.still, clause)) return 'skin-mark';
  const fades = has(patterns.fades, clause) || has(patterns.quickly, clause) || isResolved(clause);
  return minutes !== null || fades ? null : 'skin-mark';
}
