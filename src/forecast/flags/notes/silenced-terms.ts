import type { FindingKind } from '../finding.js';
import { fromElsewhere, isOtherwise } from './from-elsewhere.js';
import { patterns, type Term } from './note-patterns.js';
import { anchored, findAll, has, last } from './phrases.js';
import { type Clause, NO_FOR_ANSWER } from './split-clauses.js';
import { BODGED, MENDED_AT_HOME } from './well-now.js';

/** Why a clause's terms say nothing of this child now; it may go on in the next clause of a list. */
export type Silenced = 'denied' | 'advice' | 'others' | null;

/** Is what a clause names denied, only advised, or told of somebody else? */
export function silencedBy({ text }: Clause, term: Term): Silenced {
  const before = text.slice(0, term.at);
  const after = text.slice(term.end);
  if (isSaidNotToBe(term, before, after)) return 'denied';
  if (isAdvised(before, term, after)) return 'advice';
  if (isOfNoConcern(term, before, after)) return 'denied';
  return !isOfWhatIsWorn(term, after) && isOfAnother(term, before, after) ? 'others' : null;
}

const isSaidNotToBe = ({ kind }: Term, before: string, after: string): boolean =>
  isOtherwise(kind, after) ||
  isDenied(before, after) ||
  has(patterns.noneNow, after) ||
  (kind.startsWith('skin') && has(patterns.nothingSeen, after));

/** Over, from elsewhere, as it was, or as it is meant. */
const isOfNoConcern = (term: Term, before: string, after: string): boolean =>
  OLD_SCAR.test(before) ||
  hasEnded(term.kind, after) ||
  fromElsewhere(before, term, after) ||
  (OF_THE_STATE.includes(term.kind) && has(patterns.unchanged, before + after)) ||
  AS_MEANT.test(after) ||
  (WEARS_LESS.test(term.text) && BY_CHOICE.test(after));

/** 'Clicks as designed', 'cracked when cut off as it does'. */
const AS_MEANT = /\bas (?:designed|intended|(?:it|they) (?:does|do|should|always does|always do))\b/;

/** 'Only wears them for hurling by choice', 'wearing less as agreed'. */
const WEARS_LESS =
  /\b(?:wants? (?:it|them) off|wear|worn|wears|wearing|manages?|nights only|off for|unlock\w*)\b/;
const BY_CHOICE =
  /\b(?:by choice|per protocol|as (?:agreed|planned|advised|prescribed|instructed|discussed|told|per)|for (?:sports?|school|pe|matches) only|for (?:the |her |his |a )*(?:\w+ )?(?:wedding|party|photos?|prom|show|play|concert|swimming|beach)|allowed|weaning)\b/;

const isAdvised = (before: string, term: Term, after: string): boolean =>
  !OF_WHAT_IS_SEEN.test(before + term.text) &&
  !AND_IT_IS.test(after) &&
  (has(patterns.advice, before) ||
    ADVISED_BEFORE.some((advice) => advice.test(before)) ||
    (TO_COME.test(before) && /^out ?gr/.test(term.text)) ||
    (WHERE_IT_COMES.test(before) && has(patterns.adviceAfter, after)) ||
    has(anchored(patterns.adviceAfter), after));

export const HANDED_OUT =
  /\b(?:hand ?outs?|leaflets?|booklets?|(?:information|info|advice|fact) ?sheets?|written (?:advice|information)|talked (?:through|about)|went (?:through|over))\b/;
/** 'Told what to look for: colour change': what follows is of the list. */
export const LISTED =
  /\b(?:look|watch|check|signs?|symptoms?|ring|report|call)\b[^:]*:(?!.*\b(?:is|are|has|does|did|was)\b)[^:]*$/;
/** 'Will outgrow by summer' is told ahead. */
const TO_COME =
  /\b(?:will|would|likely to|going to|expect\w* to|(?:when|once|until|before|if) (?:he|she|they)(?: has| have)?)\s*$/;

/** What is told of what may come, before the word. */
const ADVISED_BEFORE: readonly RegExp[] = [
  // 'Watch the left heel for'.
  /\b(?:watch|check|monitor|observe|inspect|look at|dermatolog\w*|allergist)\b.*\bfor\b(?:[ /]+[a-z-]+)*[ /]*$/,
  // 'Talked about cold toes in winter'.
  /^\s*(?:we |also |had a )?(?:talked|chatted|talk|chat|conversation)\b.*\b(?:about|re|through|over)\b[^:]*$/,
  // 'Advice sheet on blisters given'.
  new RegExp(`${HANDED_OUT.source}[^,;:]* (?:on|about|re|for|of) [^:]*$`),
  // 'Things to ring about: blisters'.
  /\b(?:things|what|when|signs|symptoms) to (?:look|watch|check|ring|report|call|phone)\b[^:]*:[^:]*$/,
  // 'Asked would they crack', 'wonders about numbness', 'read about curves'; not 'asked about his blister', 'asks can he stop as it hurts'.
  /\b(?:(?:ask\w*|wonder\w*|wants? to know|wanted to know|quer(?:y|ied)|enquir\w*) (?:if|whether|would|could|will|can|do|does|is|are|re|about|what|how)|(?:read|googled|heard|looked) (?:up|up on|about|of))\b(?!.*\b(?<!\b(?:make|give|hurt|harm|leave|cause|help|affect|stop) )(?:his|her|their|this|that|these|new|as|because|since|for|do about|the (?:\w+ )?$)\b)[^,;]*$/,
];

/** 'Wonders if the foot should be that cold', 'asks if it should hurt like this'. */
const OF_WHAT_IS_SEEN = /\b(?:ask|wonder|worr|quer|should|normal)\w*\b.*\b(?:this|that|so)(?: \w+)?$/;
/** 'Told to ring if sore: it is'. */
const AND_IT_IS = /^\s*[:?-]\s*(?:yes\b|(?:it|they|he|she) (?:is|are|has|does)\b)/;

/** 'Mum lost one on the ferry' is of what the child wears; so is what dad has glued. */
const isOfWhatIsWorn = ({ kind, text }: Term, after: string): boolean =>
  (kind === 'lost' && OF_WHAT_IS_WORN.test(after)) ||
  (kind === 'broken' && (MENDED_AT_HOME.test(text) || BODGED.test(text)));

/** 'Dad limping after football', 'mum's sore knee', 'hurts mum's back'; but a mother who complains or moans speaks of the child. */
function isOfAnother(term: Term, before: string, after: string): boolean {
  if (ofSomebodyElse(`${before}${term.text}`, after)) return true;
  if (!OF_A_BODY.includes(term.kind)) return false;
  const isOwn = findAll(patterns.othersOwn, before).some((own) => before.slice(own.end).trim() === '');
  if (isOwn || has(anchored(patterns.othersOwn), after)) return true;
  if (IS_OF.test(after) && has(patterns.othersOwn, after)) return true;
  const other = last(patterns.others, before);
  return (
    other !== undefined &&
    /^\s+(?:(?:is|was|has been|still|also|now) )?$/.test(before.slice(other.end)) &&
    !/^(?:complain|moan|grumbl|fuss|whin|unhappy|upset|refus)/.test(term.text)
  );
}
/** 'The knee that hurts is her mother's'. */
const IS_OF = /^\s*(?:is|was) (?:\w+ )?\w+s\s*[.;]?\s*$/;
const OF_A_BODY: readonly FindingKind[] = ['pain', 'falls', 'function-lost', 'swelling', 'rash'];

/** 'Lost one', 'lost them'. */
export const OF_WHAT_IS_WORN = /^\s*(?:1|it|them|both)\b/;

/** 'Scar of the ankle post TAL': the operation is what the scar is from. */
const OLD_SCAR = /\bscar(?:s|ring)?\b[^,;]*\b(?:post|from|after|of)(?: the| his| her)?\s*$/;

/** 'Screaming stopped after the first week', not 'pain stopped him walking' nor 'bleeding stopped with pressure'. */
const MAY_STOP: readonly FindingKind[] = ['pain', 'falls', 'skin-mark', 'numbness', 'rash'];
const HAS_STOPPED =
  /^\s*(?:(?:has|have|had|now|all|since|soon|completely) )*(?:stopped|ceased|worn off|wore off)(?=\s*(?:$|[.,;:)(-]|now\b|since\b|after\b|once\b|when\b|with\b|by\b|in\b|within\b|as\b|on\b))/;

export const hasEnded = (kind: FindingKind, after: string): boolean =>
  (MAY_STOP.includes(kind) && HAS_STOPPED.test(after)) ||
  (kind === 'swelling' && IS_DOWN.test(after)) ||
  (MAY_GO.includes(kind) && HAS_GONE.test(after));

/** 'Swelling already down', not 'swelling down a bit'. */
const IS_DOWN =
  /^ (?:has |is |had )?(?:(?:already|well|all|gone|right|completely) )+down\s*(?:$|[.,;:)(-]|now\b)/;

/** 'Arch pain gone since the insoles', 'swelling of the knee gone'; of a mark it says how soon. */
const MAY_GO: readonly FindingKind[] = ['pain', 'falls', 'numbness', 'rash', 'swelling', 'skin-callus'];
const HAS_GONE =
  /^\s*(?:(?:of|in|at|over|on|from|under|round) (?:(?!\w+nt\b|not\b)\w+ ){1,3})?(?:(?:has|have|had|now|all|since|soon|completely|is|are) )*(?:gone|went(?: away)?|cleared)(?= long ago| for good|\s*(?:$|[.,;:)(-]|now\b|since\b|after\b|once\b|with\b))(?!.* off\b)/;

/** What is no news where it is as it was. */
export const OF_THE_STATE: readonly FindingKind[] = [
  'fit-changed',
  'function-lost',
  'numbness',
  'skin-callus',
];

/** 'Bei Rötung oder Blasen melden', 'bij roodheid contact opnemen': told to ring where it comes. */
const WHERE_IT_COMES = /^\s*(?:bei|bij|se|en cas de)\b/;

/** 'Mum: the hinge is loose', 'dad texted a photo: sore heel', 'dad - it hurts': who says it. */
const SPEAKS = /:|^\s*(?:-+\s|=)/;

/** 'Twin sister has a': what follows is hers, whoever sees to it. */
const HAS_ONE = /^\s*(?:has|had|got|wears|with) (?:an?|her own|his own)\b/;

const THEIR_OWN = /\b(?:(?:mum|mom|mam|mother|dad|father|gran|nan|teacher|nurse|physio)s|my) own\b/;

/** What a brother complains of is his own; a mother complains for the child. */
const PEER = /^(?:brother|sister|sibling|twin|cousin|friend)$/;
const OF_ITS_OWN = /^\s*(?:is |was |also )?complain/;

/** 'Mum has', 'his brother’s'; not 'mum reports' or 'mum has noticed'. */
export function ofSomebodyElse(before: string, after = ''): boolean {
  if (THEIR_OWN.test(before)) return true;
  // 'Mum's foot', 'gran's splint'; not 'mum's worried about'.
  if (
    findAll(patterns.othersOwn, before).some((own) =>
      [patterns.places, patterns.device].some((of) => has(anchored(of), before.slice(own.end))),
    )
  )
    return true;
  const other = last(patterns.others, before);
  if (other && PEER.test(other.text) && OF_ITS_OWN.test(before.slice(other.end))) return true;
  // 'Dad broke his ankle so gran brought her': what follows is of another.
  const [own] = after.split(/\b(?:so|because|while)\b/);
  if (
    !other ||
    SPEAKS.test(before.slice(other.end)) ||
    has(patterns.othersReport, before.slice(other.end) + (HAS_ONE.test(before.slice(other.end)) ? '' : own))
  )
    return false;
  return has(patterns.othersHave, before.slice(other.end));
}

/** 'Pain: no', 'tingling? denied'; not 'swollen - no injury'. */
const ANSWERED_NO = new RegExp(`^[\\s:=?-]*(?:${NO_FOR_ANSWER})(?=\\s*(?:[.,;:/)(-]|$))`);

/** '0 sore days'. */
const NOT_ONE = /(?<!\b(?:size|grade|stage|score) )\b0 $/;

function isDenied(before: string, after: string): boolean {
  const cue = last(patterns.negated, before);
  const doubled = last(patterns.doubled, before);
  if (cue && !(doubled && doubled.end >= cue.end)) {
    const between = before.slice(cue.end);
    const distance = between.trim().split(/\s+/).filter(Boolean).length;
    // 'Not wearing - hurts': a dash begins anew.
    if (!has(patterns.negationEnds, between) && !/\s-+\s/.test(between) && distance <= 5) return true;
  }
  return NOT_ONE.test(before) || ANSWERED_NO.test(after) || has(anchored(patterns.negatedAfter), after);
}
