import type { FindingKind } from '../finding.js';
import { patterns, type Term } from './note-patterns.js';
import { anchored, has } from './phrases.js';

/** 'Bruise from football', 'grazed after a fall', 'sock seam mark': not of what is worn. */
export function fromElsewhere(before: string, { kind, text }: Term, after: string): boolean {
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
