import type { Term } from './fits-place.js';
import { patterns } from './note-patterns.js';
import { anchored, has, last } from './phrases.js';
import type { Clause } from './split-clauses.js';

/** Why a clause's terms say nothing of this child now; it may go on in the next clause of a list. */
export type Silenced = 'denied' | 'advice' | 'others' | null;

/** Is what a clause names denied, only advised, or told of somebody else? */
export function silencedBy({ text }: Clause, term: Term): Silenced {
  const before = text.slice(0, term.at);
  const after = text.slice(term.end);
  if (UNRELATED.test(after)) return 'denied';
  if (isDenied(before, after) || has(patterns.noneNow, after)) return 'denied';
  if (term.kind.startsWith('skin') && has(patterns.nothingSeen, after)) return 'denied';
  if (has(patterns.advice, before) || TO_LOOK_FOR.test(before) || has(anchored(patterns.adviceAfter), after))
    return 'advice';
  return ofSomebodyElse(`${before}${term.text}`, after) ? 'others' : null;
}

/** Said not to come from what is worn. */
export const UNRELATED =
  /\b(?:unrelated|not (?:\w+ )?related|not (?:from|due to|caused by|under|in contact with) (?:the |her |his |their )?(?:afos?|splints?|brace|orthos[ei]s|helmet|insoles?|device|boots))\b/;

/** 'Watch the left heel for'. */
const TO_LOOK_FOR =
  /\b(?:watch|check|monitor|observe|inspect|look at|dermatolog\w*|allergist)\b.*\bfor(?: any| new| her| his)?\s*$/;

/** 'Mum has', 'his brother’s'; not 'mum reports' or 'mum has noticed'. */
export function ofSomebodyElse(before: string, after = ''): boolean {
  const other = last(patterns.others, before);
  // 'Dad broke his ankle so gran brought her': what follows is of another.
  const [own] = after.split(/\b(?:so|because|while)\b/);
  if (!other || has(patterns.othersReport, before.slice(other.end) + own)) return false;
  return before[other.end] === 's' || has(patterns.othersHave, before.slice(other.end));
}

function isDenied(before: string, after: string): boolean {
  const cue = last(patterns.negated, before);
  const doubled = last(patterns.doubled, before);
  if (cue && !(doubled && doubled.end >= cue.end)) {
    const between = before.slice(cue.end);
    const distance = between.trim().split(/\s+/).filter(Boolean).length;
    const list = /\b(or|nor|ni|oder|ou|o)\b|\//.test(between);
    if (!has(patterns.negationEnds, between) && (list || distance <= 5)) return true;
  }
  return has(anchored(patterns.negatedAfter), after);
}

/** Long ago and not back, or healed. */
export function isPast(clause: string, term: Term): boolean {
  const rest = clause.slice(0, term.at) + clause.slice(term.end);
  if (term.kind === 'broken' && OLD_DEVICE.test(clause.slice(0, term.at))) return true;
  if (term.kind === 'falls' && LESS.test(clause.slice(term.end))) return true;
  if (has(patterns.history, rest)) return !has(patterns.returns, rest);
  return isResolved(rest) && term.kind !== 'skin-mark';
}

/** What was worn before asks for nothing now; falls that have become fewer neither. */
const OLD_DEVICE =
  /\b(?:old|older|outgrown|spare|previous|last) (?:pair|set|one|ones|afos?|smos?|kafos?|splints?|boots?|brace|helmet|insoles?|orthos[ei]s)\b/;
const LESS = /^\s*(?:\w+ )?(?:less|fewer|reduced|improved|better|rarer|seldom|rarely)\b/;

export const isResolved = (text: string): boolean => {
  const at = last(patterns.resolved, text);
  return (
    at !== undefined && !has(patterns.almostResolved, text) && !has(patterns.negated, text.slice(0, at.at))
  );
};

const ONLY_A_COLOUR = new RegExp(`^(?:${patterns.colours.source})$`);

/** 'red strap wanted' speaks of a colour, 'swollen-looking trainers' of a shoe, 'red strap mark' of the skin. */
export function isOfThings(clause: string, term: Term): boolean {
  // Swelling above a sock is of the leg.
  if (term.kind === 'swelling')
    return (
      term.text === 'swollen' &&
      has(anchored(patterns.coloured), followedBy(clause, term).replace(/^looking /, ''))
    );
  if (term.kind !== 'skin-mark' || !has(ONLY_A_COLOUR, term.text)) return false;
  const next = followedBy(clause, term);
  if (/\b(mark|marks|line|lines|area|areas|patch|skin)\b/.test(next)) return false;
  if (has(patterns.coloured, next)) return true;
  return has(patterns.colourChoice, clause) && !has(patterns.places, clause);
}

/** The two words behind a term. */
const followedBy = (clause: string, term: Term): string =>
  clause
    .slice(term.end)
    .replace(/^[\s-]+/, '')
    .split(/[\s-]+/)
    .slice(0, 2)
    .join(' ');
