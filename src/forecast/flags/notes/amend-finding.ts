import type { NoteFinding } from '../finding.js';
import { lastedMinutes } from './durations.js';
import { isLasting, isMark, markKind } from './mark-kind.js';
import { patterns } from './note-patterns.js';
import { findAll, has } from './phrases.js';
import { sideOf } from './place-and-side.js';
import { isResolved, OF_THE_STATE, UNRELATED } from './silenced-terms.js';

/** A clause without a finding of its own says more of the one before: 'gone in 10 minutes', 'still there at bedtime', 'healed'. */
export function amendFinding(
  found: NoteFinding[],
  current: NoteFinding,
  clause: string,
): NoteFinding | undefined {
  const at = found.lastIndexOf(current);
  const drop = () => {
    found.splice(at, 1);
    return undefined;
  };
  if (isTakenBack(current, clause)) return drop();
  if (current.daysBefore !== undefined) return current;
  if (OF_THE_STATE.includes(current.kind) && has(patterns.unchanged, clause)) return drop();
  if (ONLY_WHEN.test(clause) && has(patterns.history, clause)) return drop();
  if (!isMark(current)) return isOver(current, clause) ? drop() : current;
  const minutes = has(patterns.notDurations, clause) ? null : lastedMinutes(clause);
  const speaks = minutes !== null || isLasting(clause) || has(patterns.fades, clause) || isResolved(clause);
  if (!speaks || has(patterns.advice, clause)) return withPlace(found, at, current, clause);
  const kind = markKind(clause, minutes);
  if (kind === null) return drop();
  found[at] = {
    ...current,
    kind,
    minutes: minutes ?? current.minutes,
    words: `${current.words}, ${clause.trim()}`,
  };
  return found[at];
}

const isTakenBack = ({ kind }: NoteFinding, clause: string): boolean =>
  has(patterns.noneNow, clause) ||
  UNRELATED.test(clause) ||
  (kind.startsWith('skin') && has(patterns.nothingSeen, clause));

/** Healed, mended or found again; to be so is only advice. */
const isOver = ({ kind }: NoteFinding, clause: string): boolean =>
  isResolved(
    kind.startsWith('skin') ? clause : clause.replace(/\bclosed\b/, ''),
    ['broken', 'lost'].includes(kind),
  ) && !has(patterns.advice, clause);

/** '(2021)', '(last year)'. */
const ONLY_WHEN = /^\s*(?:in |[a-z]+ )?(?:years ago|last year|last month|previous\w*)\s*[.;]?\s*$/;

function withPlace(found: NoteFinding[], at: number, current: NoteFinding, clause: string): NoteFinding {
  const [place] = findAll(patterns.places, clause);
  if (current.where !== null || !place) return current;
  found[at] = { ...current, where: place.text, side: current.side ?? sideOf(clause) };
  return found[at];
}
