import { FADES_WITHIN_MINUTES } from '../../../records/skin-check.js';
import { type FindingKind, isOfDevice, type NoteFinding } from '../finding.js';
import { lastedMinutes } from './durations.js';
import { isOtherwise } from './from-elsewhere.js';
import { isLasting, isMark, markKind } from './mark-kind.js';
import { patterns } from './note-patterns.js';
import { isResolved } from './past-terms.js';
import { anchored, findAll, has } from './phrases.js';
import { sideOf } from './place-and-side.js';
import { hasEnded, OF_THE_STATE } from './silenced-terms.js';
import { isReplacedBy, isWellNow } from './well-now.js';

/** A clause without a finding of its own says more of the one before: 'gone in 10 minutes', 'still there at bedtime', 'healed'. */
export function amendFinding(
  found: NoteFinding[],
  current: NoteFinding,
  clause: string,
): NoteFinding | undefined {
  const at = found.lastIndexOf(current);
  const drop = () => {
    // What is missing reads as broken, too.
    const same = (f: NoteFinding) =>
      f.words === current.words &&
      (f.kind === current.kind || (isOfDevice(f.kind) && isOfDevice(current.kind)));
    for (let i = found.findIndex(same); i >= 0; i = found.findIndex(same)) found.splice(i, 1);
    return undefined;
  };
  if (isTakenBack(current, clause) || isWellNow(current.kind, current.words, clause)) return drop();
  if (current.daysBefore !== undefined) return current;
  if (OF_THE_STATE.includes(current.kind) && has(anchored(patterns.unchanged), clause)) return drop();
  if (!isMark(current)) return isOver(current, clause) ? drop() : current;
  return amendMark(found, at, current, clause) ?? drop();
}

/** What a clause says of how long a mark stays; undefined where it is gone. */
function amendMark(
  found: NoteFinding[],
  at: number,
  current: NoteFinding,
  clause: string,
): NoteFinding | undefined {
  const minutes = has(patterns.notDurations, clause) ? null : lastedMinutes(clause);
  const speaks = minutes !== null || isLasting(clause) || saysItFades(clause) || isResolved(clause);
  if (!speaks || has(patterns.advice, clause)) return withPlace(found, at, current, clause);
  // 'Takes 40 min to go, was 10 when new'; 'red at 50 min. Stretching going well'.
  const longer = current.kind === 'skin-lasting' && (current.minutes ?? 0) > FADES_WITHIN_MINUTES;
  if (longer && (minutes ?? 0) < current.minutes!) return current;
  const kind = markKind(clause, minutes);
  if (kind === null) return undefined;
  found[at] = {
    ...current,
    kind,
    minutes: minutes ?? current.minutes,
    words: `${current.words}, ${clause.trim()}`,
  };
  return found[at];
}

/** 'Gone by the time we looked', 'left one fades'; not 'stretching going well', 'PE goes fine'. */
function saysItFades(clause: string): boolean {
  return findAll(patterns.fades, clause).some(
    ({ at, end }) =>
      !GOES_ON.test(clause.slice(end)) && !OF_ANOTHER.test(clause.slice(0, at).replace(patterns.places, ' ')),
  );
}
const GOES_ON =
  /^ (?:well|ok|okay|fine|great|good|grand|nicely|smoothly|on|to|out|home|up|for|swimming|horse)\b/;
/** A word before it that is neither the mark nor how, when or where it goes. */
const OF_ANOTHER =
  /\b(?:stretch\w*|therapy|physio|school|nursery|pe|gait|walking|standing|exercises?|programme|treatment|hips?|head shape|feeding|baby|appetite|sleep\w*|weaning|transition|casting|rom|range|tone|spasm\w*|fit|alignment|gp|mum|dad|brother|sister)\b/;

/** 'None seen', 'not there yet', 'the video shows none'. */
const NOT_SO =
  /^(?:.*\b(?:show\w*|saw|seen|found|noticed) none\b|\s*(?:there (?:is|are|was|were) )?(?:none|neither|nope|not at all|not so|not (?:there )?yet|told no)(?:\s*(?:[.,;!?)]|$)| (?:seen|found|noted|reported|to date|so far|per|there|is so|was so|says?)\b)|\s*(?:never|not|none) in (?:splints?|afos?|brace|orthos\w+|boots|insoles|it|them)\b)/;

/** Skin that is intact may still be red or hard: 'pink at 40 min, skin intact'. */
const KEEPS_SKIN_WHOLE: readonly FindingKind[] = ['skin-mark', 'skin-lasting', 'skin-callus'];
const isTakenBack = (current: NoteFinding, clause: string): boolean =>
  isOtherwise(current.kind, clause) ||
  isReplacedBy(current.kind, clause) ||
  (current.kind === 'treatment-planned' && NOTHING_TO_DO.test(clause)) ||
  (saysNone(current, clause) && !isOfTheOther(current, clause));

const saysNone = ({ kind }: NoteFinding, clause: string): boolean =>
  has(patterns.noneNow, clause) ||
  NOT_SO.test(clause) ||
  (kind.startsWith('skin') &&
    has(patterns.nothingSeen, clause) &&
    !(KEEPS_SKIN_WHOLE.includes(kind) && UNBROKEN.test(clause)));

/** 'Blister on the right heel. None seen on the left.' */
function isOfTheOther(current: NoteFinding, clause: string): boolean {
  const side = sideOf(clause);
  return (side !== null && current.side !== null && side !== current.side) || OTHER.test(clause);
}
const OTHER = /\b(?:other|else\w*)\b/;
/** Somebody has thought of what a treatment to come means for the device. */
const NOTHING_TO_DO =
  /\b(?:no change|nothing needed|nothing to do|no action|carry on|continue|meantime|cast first|(?:re)?cast after|will recast|cancelled|not needed|declined)\b/;
const UNBROKEN = /\b(?:intact|not broken|unbroken|gaaf|intacta)\b/;

/** Healed, mended or found again; to be so is only advice. */
const isOver = ({ kind, words }: NoteFinding, clause: string): boolean =>
  hasEnded(kind, clause) ||
  (!isOfDevice(kind) && JUST_GONE.test(clause)) ||
  ((kind !== 'broken' || !FOUND.test(clause) || MISSED.test(words)) &&
    isResolved(
      kind.startsWith('skin')
        ? clause
        : clause.replace(kind === 'numbness' ? /\bnot (?:come back|returned)\b/ : /\bclosed\b/, ''),
      isOfDevice(kind),
    ) &&
    !has(patterns.advice, clause));

/** 'Blister on the heel, gone'. */
const JUST_GONE = /^\s*(?:now |all |since |long )*gone\s*[.;!]?\s*$/;
/** A pin that worked its way out is not mended by being found. */
const FOUND = /\b(?:found|turned up|handed in)\b/;
const MISSED = /\b(?:missing|lost)\b/;

function withPlace(found: NoteFinding[], at: number, current: NoteFinding, clause: string): NoteFinding {
  const [place] = findAll(patterns.places, clause);
  if (current.where !== null || !place) return current;
  found[at] = { ...current, where: place.text, side: current.side ?? sideOf(clause) };
  return found[at];
}
