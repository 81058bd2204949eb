import { isOfDevice } from '../finding.js';
import { doneDaysAgo } from './durations.js';
import { patterns, type Term } from './note-patterns.js';
import { anchored, has, last } from './phrases.js';
import { isProperlyDone, isReplacedBy } from './well-now.js';

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
  (isOfDevice(term.kind) && MADE_ANEW_AFTER.test(clause.slice(0, term.at))) ||
  isReplacedBy(term.kind, clause.slice(term.end));

/** 'New shell made after the crack': what broke is no longer worn. */
const MADE_ANEW_AFTER =
  /\b(?:new|replacement) \w+ (?:made|given|supplied|fitted|issued|provided|delivered) (?:after|following|because of|due to) (?:the |an? |his |her )?$/;

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
