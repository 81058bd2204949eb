import { type FindingKind, isOfDevice } from '../finding.js';
import { doneDaysAgo } from './durations.js';
import { patterns, type Term } from './note-patterns.js';
import { anchored, findAll, has, last } from './phrases.js';
import { type Clause, NO_FOR_ANSWER } from './split-clauses.js';
import { BODGED, isProperlyDone, isReplacedBy, MENDED_AT_HOME } from './well-now.js';

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
  (MAY_STOP.includes(kind) && HAS_STOPPED.test(after)) || (MAY_GO.includes(kind) && HAS_GONE.test(after));

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

/** 'Bruise from football', 'grazed after a fall', 'sock seam mark': not of what is worn. */
function fromElsewhere(before: string, { kind, text }: Term, after: string): boolean {
  if (!MAY_BE_CHANCE.includes(kind) || (kind === 'skin-open' && ON_CLOTHES.test(after.trim()))) return false;
  if (has(patterns.illnesses, before + after) && !has(patterns.device, before + after)) return true;
  if (
    DISTRESS.test(text) &&
    has(anchored(patterns.outsideCauses), `${text}${after}`.replace(DISTRESS, '').replace(UPSET_BY, ''))
  )
    return true;
  const told = [...after.matchAll(CAUSE)].some(
    (m) =>
      !(
        kind === 'pain' &&
        ON_EXERTION.test(m[0]) &&
        has(anchored(patterns.activities), after.slice(m.index + m[0].length))
      ) &&
      !has(patterns.device, kind === 'pain' ? after : after.slice(0, m.index)) &&
      !ON_CLOTHES.test(after.slice(m.index)) &&
      has(anchored(patterns.outsideCauses), after.slice(m.index + m[0].length)),
  );
  return told || (KNOCK.test(text) && FROM_A_THING.test(after) && !has(patterns.device, after));
}
const MAY_BE_CHANCE: readonly FindingKind[] = [
  'skin-mark',
  'skin-lasting',
  'skin-open',
  'skin-infected',
  'pain',
  'rash',
  'swelling',
  'head-warning',
];
const CAUSE =
  /\b(?:from|after|due to|because of|caused by|secondary to|playing|in|at|off|on)\s(?:(?:the|her|his|a|an|any|new|recent|school)\s)*/g;
/** 'Cries with any stranger', 'screamed over a needle'. */
const DISTRESS = /^(?:cr(?:y|ie)|scream|tear|sob|upset|distress|howl)\w*/;
const UPSET_BY =
  /^\s(?:with|over|about|as|because|when|at)?\s?(?:(?:the|her|his|a|any|he|she|it|was|is|saw|heard|of)\s)*/;
/** 'Bruise on the shin from the coffee table', 'where his cousin kicked him'; not 'from the strap', 'from wear'. */
const KNOCK = /^(?:bruis|graz|scratch|scrap|scab)/;
const FROM_A_THING =
  /^(?: \w+){0,4} (?:from (?!(?:the )?(?:top |back )?(?:it|them|edge|trim|rivet|plastic|wear|rub|friction|pressure|sit|sleep|play|walk|stand)\w*\b)[a-z]|where (?:\w+ ){1,3}(?:kicked|fell|banged|hit|knocked|bumped|bit|scratched|walked|ran)\b)/;
/** Pain on exertion is asked about: 'sore after PE', not 'sore from football'. */
const ON_EXERTION = /^(?:after|in|at|off|on)\b/;
/** Blood on a sock tells of the foot in it. */
const ON_CLOTHES = /^(?:in|on|off|at) (?:the |her |his )*(?:socks?|trousers|tights|leggings|bed)\b/;

/** Said not to come from what is worn. */
const UNRELATED =
  /\b(?:unrelated|(?:was|were|is) (?:only |just )?an? (?:bit|piece|lump|blob|smear|speck|crumb) of (?!an? |skin|bone|plastic|blood|pus|metal|the |trouble|worry|bother|discomfort)|(?:was|were|is|its|be) (?:(?:only|just|all|some|my|own|the|off) )*(?:felt (?:tip|pen)|pen|biro|ink|paint|dye|mud|marker|food|dirt|jam|chalk|\w+berries)|its (?:just |only |his |her )?(?:asthma|a cold|hay ?fever|a virus|a bug|teething|an ear infection|growing pains)|nothing to do with|not (?:\w+ )?related|not (?:from|due to|caused by|under|in contact with) (?:the |her |his |their )?(?:afos?|splints?|brace|orthos[ei]s|helmet|insoles?|device|boots)|(?:outside|clear of|well clear|well away|is away|nowhere near)(?: of| from)? (?:the |her |his |their )?(?:afos?|splints?|brace|orthos[ei]s|helmet|insoles?|device|boots|plastic))\b/;

/** 'Was a bee sting', 'turned out to be the cat'. */
const WAS_ONLY = /\b(?:was|were|is|its|be) (?:(?:only|just|all|from|off|a|an|the|some) )+/g;
/** 'A crack reported, scuff only', 'turned out to be a scratch'. */
const ONLY_A_SCUFF =
  /\b(?:scuff|scratch|scrape|surface|cosmetic|superficial)\w*(?: mark)? only\b|(?<!\bnot )\b(?:only|just|merely|turned out|turns out|is|was)(?: to be)?(?: only| just)?(?: an?)?(?: \w+)? (?:scuff|scratch|scrape|cosmetic|superficial|dirt|glue|transfer)\w*\b/;
export const isOtherwise = (kind: FindingKind, text: string): boolean =>
  UNRELATED.test(text) ||
  (kind === 'broken' && ONLY_A_SCUFF.test(text)) ||
  (MAY_BE_CHANCE.includes(kind) &&
    [...text.matchAll(WAS_ONLY)].some((m) =>
      has(anchored(patterns.outsideCauses), text.slice(m.index + m[0].length).replace(/^(\w+)s\b/, '$1')),
    ));

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

/** Long ago and not back, or healed. */
export function isPast(clause: string, term: Term): boolean {
  // 'Has gone off his feet' is not gone.
  const rest =
    clause.slice(0, term.at).replace(/\bgone\s*$/, ' ') + clause.slice(term.end).replace(SINCE_THEN, ' ');
  if (isOfTheOld(clause, term)) return true;
  if (
    /\b(?:old|older|outgrown|spare|previous)\s+$/.test(clause.slice(0, term.at)) &&
    has(anchored(patterns.device), term.text)
  )
    return true;
  if (['broken', 'fit-changed', 'skin-mark'].includes(term.kind) && OLD_DEVICE.test(clause.slice(0, term.at)))
    return true;
  if ((term.kind === 'falls' || term.text === 'toe walking') && LESS.test(clause.slice(term.end)))
    return true;
  // What was operated on in this device's time is another shape now, however well it healed.
  if (term.kind === 'fit-changed' && doneDaysAgo(rest) !== null) return false;
  const back = `${rest} ${term.text}`.replace(WELL_NOW, ' ');
  if (isOld(clause, term) && !has(patterns.returns, back)) return true;
  if (has(patterns.history, rest.replace(UNTIL_NOW, ' ')) && !has(patterns.returns, back)) return true;
  return isResolved(rest, isOfDevice(term.kind)) && term.kind !== 'skin-mark';
}

/** 'The outgrown pair can go', not 'has outgrown splints'. */
const THE_OUTGROWN = /\b(?:the|his|her|their|those|an) $/;

const isOfTheOld = (clause: string, term: Term): boolean =>
  (THE_OUTGROWN.test(clause.slice(0, term.at)) && clause.slice(term.at).search(OLD_DEVICE) === 0) ||
  (isOfDevice(term.kind) && /\b(?:spare|outgrown) /.test(term.text)) ||
  (OLD_DEVICE.test(term.text) && !term.text.startsWith('outgrown')) ||
  IN_THE_OLD.test(clause) ||
  isReplacedBy(term.kind, clause.slice(term.end));

/** 'Old blister site now just dry skin'. */
const WELL_NOW = /\bnow (?:just|only|well|fine|ok|healed|closed|dry|gone|clear)\b/;

/** 'Since last visit', 'than at last review': until now. */
const SINCE_THEN = /\b(?:since|than(?: at| on)?) (?:the |his |her |our )?(?:last|previous) \w+/g;

/** 'For the last month': it is so today. */
const UNTIL_NOW =
  /\b(?:for|over|in|during|throughout) (?:the |these |this )?(?:last|past) (?:\w+ )?(?:days?|weeks?|months?|years?)\b/g;

/** 'Mum has stopped socks as they stick', 'it has gone down to her neck': what has stopped, or gone, is no finding. */
const STOPPED_WHAT =
  /\b(?:gone|went) down (?=(?:to|onto|into|his|her|as far)\b)|\b(?:has|have) gone (?!(?:now|since|after|once|when|with|by|completely|altogether|again|from|in|within|at|over|away|down|all|today|as|so|too|this|and)\b)(?=[a-z])|\bstopped (?!(?:now|since|after|once|when|with|by|completely|altogether|again)\b)(?=[a-z])/g;

/** 'Skin where the sore was'. */
const WHERE_IT = /\bwhere (?:the |his |her |an? )?(?:old )?$/;
/** 'Trimmed where it had been digging', 'the tingling he had before the operation'. */
const WHERE_IT_HAD = /\bwhere (?:\w+ ){0,2}(?:had|used to)(?: been| started to| begun to)? $/;
const HAD_BEFORE = /^ (?:he|she|they|we|\w+ed) (?:had )?(?:before|prior to)\b/;

/** 'Old ulcer', 'rubbed before the orthosis was supplied'. */
const isOld = (clause: string, term: Term): boolean =>
  WHERE_IT_HAD.test(clause.slice(0, term.at)) ||
  HAD_BEFORE.test(clause.slice(term.end)) ||
  (WHERE_IT.test(clause.slice(0, term.at)) && /^ (?:was|were|had been)\b/.test(clause.slice(term.end))) ||
  (term.kind.startsWith('skin') &&
    /(?<!\b(?:year|yr|month|mth|week|day)s? )\bold(?: \w+)?(?: \w+ (?:that|which))?\s*$/.test(
      clause.slice(0, term.at),
    ));

/** What was worn before asks for nothing now; falls that have become fewer neither. */
export const OLD_DEVICE =
  /\b(?:old|older|outgrown|spare|previous|last|last years) (?:pair|set|size \d+|1s?|ones?|afos?|smos?|kafos?|splints?|boots?|brace|helmet|insoles?|orthos[ei]s)\b/;
const IN_THE_OLD = new RegExp(
  `\\b(?:in|with|from|under|by|on|of|at|inside) (?:the |his |her |their )?(?:${OLD_DEVICE.source})`,
);
const LESS = /^\s*(?:\w+ )?(?:less|fewer|reduced|improved|better|rarer|seldom|rarely)\b/;

export const isResolved = (said: string, device = false): boolean => {
  const text = said.replace(STOPPED_WHAT, ' ');
  const repaired = device ? last(patterns.repaired, text) : undefined;
  const at =
    last(patterns.resolved, text) ?? (repaired && isProperlyDone(text, repaired.at) ? repaired : undefined);
  return (
    at !== undefined && !has(patterns.almostResolved, text) && !has(patterns.negated, text.slice(0, at.at))
  );
};
