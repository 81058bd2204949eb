import type { Region } from '../../../rules/fit-rule.js';
import { type FindingKind, isOfDevice } from '../finding.js';
import { patterns, type Term } from './note-patterns.js';
import { has } from './phrases.js';
import { OF_WHAT_IS_WORN } from './silenced-terms.js';

/** What only one region's devices are about. */
export const ONLY_ON: Readonly<Partial<Record<FindingKind, Region>>> = {
  'head-warning': 'head',
  breathing: 'trunk',
  'hip-out': 'hip',
};

/** A break is of the device, a loss of something worn; vomiting speaks only beside a helmet, or a brace about the belly. */
export function fitsPlace(term: Term, clause: string, region: Region | null, spokenOf = ''): boolean {
  if (isOfAMachine(term, clause) || (ofTheBody(term.kind) && isElsewhere(clause, region))) return false;
  const after = clause.slice(term.end);
  // 'The hinge is squeaking and bent': still of the hinge, unless a part of the body is named in between.
  const ofDevice =
    has(patterns.device, clause) || (has(patterns.device, spokenOf) && !has(patterns.places, clause));
  if (term.kind === 'head-warning') return region === 'head';
  if (term.kind === 'lost')
    return (
      !ANOTHER_LOSS.test(after) &&
      (ofDevice || OF_WHAT_IS_WORN.test(after) || LEFT_SOMEWHERE.test(clause.slice(0, term.end)))
    );
  if (term.kind === 'falls') return !isAccident(term, after);
  if (term.kind === 'fit-changed') return !(OF_SIZE.test(term.text) && CLOTHES.test(clause));
  return term.kind !== 'broken' || isBreakOfDevice(term, clause, ofDevice);
}

/** 'Lost a baby tooth'. */
const ANOTHER_LOSS =
  /^ (?:\w+ ){0,2}(?:tooth|teeth|weight|interest|contact|appointment|letter|balance|confidence|appetite|patience|count|track)\b/;

function isBreakOfDevice(term: Term, clause: string, ofDevice: boolean): boolean {
  const after = clause.slice(term.end);
  // 'Shoes fell apart'.
  const subject = clause.slice(0, term.at);
  if (TAKEN_OFF.test(subject + term.text)) return false;
  if (/ ha[sd] gone$/.test(term.text) && !GONE_FOR_GOOD.test(after)) return false;
  if (OF_ANOTHER_SEAT.test(subject)) return false;
  if (CLOTHES.test(subject) && !has(patterns.device, subject + term.text)) return false;
  if (/\bskin\b/.test(clause) || (BROKE_WHAT.test(term.text + after) && !has(patterns.device, after)))
    return false;
  return ofDevice || !(has(patterns.needDevice, term.text) || has(patterns.bones, clause));
}

/** 'Red since the helmet came off', 'gone ten minutes after it came off': taken off, and not broken off. */
const TAKEN_OFF =
  /\b(?:since|after|when|whenever|once|until|till|before|by time|as soon as|minute|moment)\b[^,;]*\b(?:it|they|helmet|splints?|brace|afos?|kafos?|smos?|boots?|insoles?|harness|jacket|tlso|orthos[ei]s|cast)(?: \w+)? (?:came|come|comes|coming) off$/;

/** 'Wheelchair rivet fell out'. */
const OF_ANOTHER_SEAT = /\b(?:wheelchair|walker|buggy|bike|chair|standing frame|car seat|cot) $/;

/** 'The hinge has gone', not 'the rash from the helmet has gone down'. */
const GONE_FOR_GOOD = /^\s*(?:$|[.,;:!?()-]|again|at|on|completely|altogether|since|now|today|this|last|by)/;

/** 'Left on the tram': who writes of nothing else means what is worn. */
const LEFT_SOMEWHERE =
  /^\s*(?:has |was |got |is |been )*left (?:on|in|at|behind)\b|\b(?:nothing|none) (?:to wear|on since)$/;

/** 'New shoes are a bit tight with the AFO' is of the shoes. */
const OF_SIZE = /\b(?:tight|small|short|big|bigger|loose|snug|outgrow\w*|grown out|room|size)\b/;
const CLOTHES =
  /\b(?:shoes?|trainers?|wellies|welly|socks?|trousers|jeans|leggings|tights|coat|uniform|clothes|pyjamas|sandals|bike|buggy|pushchair|wheelchair|chair|seat|cot|bed|walker|frame)\b/;

const isOfAMachine = ({ at, kind }: Term, clause: string): boolean =>
  (kind === 'skin-open' || isOfDevice(kind)) && MACHINES.test(clause.slice(0, at));
/** 'Car broken down', 'the lift broke': why somebody is late. */
const MACHINES =
  /\b(?:car|van|bus|coach|taxi|train|tram|bike|lift|elevator|boiler|heating|washing machine|phone|mobile|ipad|tablet|laptop|computer|printer|freezer|fridge|oven|hoist|saw|oscillator|scanner|heat gun|drill|grinder|router|sewing machine)(?: (?:was|is|has|had|been|got|just|all|itself|away|off|out|in|gone))*\s*$/;

/** Off the sofa, or once at the park, it is no way of walking. */
const isAccident = ({ text }: Term, after: string): boolean =>
  /^\s*(?:off|from|out of|asleep|off to sleep|in love|within|into)\b/.test(after) ||
  (/^(?:fell|tripped)$/.test(text) &&
    /^\s*(?:at|on|in|over|while|playing|running)\b/.test(after) &&
    !AGAIN.test(after));
const AGAIN = /\b(?:again|twice|times|several|lots|few|more|keeps|daily|weekly|since|\d ?x|x ?\d)\b/;

/** 'Broke his record'. */
const BROKE_WHAT = /^broke (?:his|her|their|an?|the) (?!1\b)/;

const ofTheBody = (kind: FindingKind): boolean =>
  kind.startsWith('skin') || kind === 'swelling' || kind === 'rash' || kind === 'pain';

/** What covers more than a limb says so itself. */
const COVERS_MORE =
  /\b(?:helmet|helm|casque|casco|tlso|jacket|corset|spinal|chin (?:strap|cup|pad|piece|rest))/;

/** It names a part of the body that this kind of device does not touch, and none that it may. */
function isElsewhere(clause: string, region: Region | null): boolean {
  const untouched = [
    patterns.unbraced,
    ...(region === 'head' ? [] : [patterns.unbracedByHelmet]),
    ...(region === 'trunk' ? [] : [patterns.unbracedBySpinalBrace]),
    ...(region === 'trunk' || region === 'wrist-hand' ? [] : [patterns.unbracedByEither]),
    ...(region === 'wrist-hand' ? [] : [patterns.unbracedByHandSplint]),
  ];
  if (COVERS_MORE.test(clause) || !untouched.some((p) => has(p, clause))) return false;
  const rest = untouched.reduce((text, p) => text.replace(p, ' '), clause);
  return !has(patterns.places, rest);
}
