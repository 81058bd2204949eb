import type { Region } from '../../../rules/fit-rule.js';
import type { FindingKind } from '../finding.js';
import { fitsPlace } from './fits-place.js';
import { isMark } from './mark-kind.js';
import { namedIn, patterns, type Term } from './note-patterns.js';
import { has } from './phrases.js';

/** Words that name a finding in a clause; the longest where they overlap, but no mark hides what is open. */
export function termsOf(clause: string, region: Region | null, said: string): Term[] {
  const all = namedIn(clause, region).map((t) => asMeant(t, clause, region, said));
  const hides = (o: Term, t: Term) =>
    o.at <= t.at &&
    o.end >= t.end &&
    o.end - o.at > t.end - t.at &&
    !(
      NEVER_HIDDEN.includes(t.kind) &&
      (isMark(o) || ['pain', 'fit-changed', 'function-lost'].includes(o.kind))
    );
  return [...all, ...unfelt(clause, said)]
    .filter((t) => !all.some((o) => o !== t && hides(o, t)))
    .filter((t) => !(t.kind === 'function-lost' && all.some((o) => isLeftOff(t, o))))
    .filter((t) => fitsPlace(t, clause, region, said) && !(HURT_IN_A_FALL.test(t.text) && A_FALL.test(said)))
    .sort((a, b) => a.at - b.at);
}

/** 'Stood on a pin, and never noticed'. */
function unfelt(clause: string, said: string): Term[] {
  const found = HURTS.test(`${said} ${clause}`) ? UNFELT.exec(clause) : null;
  return found
    ? [{ at: found.index, end: found.index + found[0].length, text: found[0], kind: 'numbness' }]
    : [];
}
const HURTS =
  /\b(?:(?:stood|stepped|trod|walked|sat) on (?:an? |glass|lego|gravel|something)|(?:cut|burn[ts]?|scald\w*|scrap\w*|stubb?\w*) (?:his|her|the|on)\b|(?:pin|nail|stone|splinter|thorn|glass|lego|tack) in (?:his|her|the) (?:sock|shoe|boot|foot|heel|splint))/;
const UNFELT =
  /\b(?:never|did not|didnt|does not|doesnt|hadnt|not) (?:even )?(?:notice\w*|feel|felt|flinch\w*|react\w*|realise\w*|know|knew|cry|cried|mind|say)\b/;

/** 'No longer digs in on sitting': what is no longer done is the bad thing, and no skill. */
const isLeftOff = (lost: Term, bad: Term): boolean =>
  /^(?:no longer|stopped|less|hardly|barely)\b/.test(lost.text) &&
  lost.at < bad.at &&
  bad.end <= lost.end &&
  ['pain', 'skin-mark', 'falls', 'fit-changed'].includes(bad.kind);

/** 'Burning in the sole when worn' is of the nerve, whatever else it is. */
const NEVER_HIDDEN: readonly FindingKind[] = ['skin-open', 'numbness', 'breathing'];

/** 'Fell off his scooter, grazed the knee'. */
const A_FALL = /\b(?:fell|tripped|knocked|banged|bumped|crashed|came off (?:his|her|a|the))\b/;
const HURT_IN_A_FALL = /^(?:graz|bruis|scrap|scab)/;

/** 'Heel liner peeling away'. */
const OF_A_COVER =
  /\b(?:liners?|lining|covers?|foam|padding|pads?|velcro|straps?|leather)\b.*\b(?:peel|flak|split)/;

/** 'Shell split at the ankle'. */
const OF_A_PART = /\b(?:shell|plastic|(?:foot ?)?plate|joint|hinge|upright|bar)(?: has| is| was)? $/;

/** 'Skin behind the knee under the strap cracked'. */
const SKIN_BY_A_PART = /\bskin (?:\w+ ){0,3}(?:under|beneath|behind|below|over|at|on|where)\b/;

/** 'Rubbed, broken in two places' is of the skin; a hip that slips in the orthosis that is to hold it is no change of fit. */
function asMeant(t: Term, clause: string, region: Region | null, said: string): Term {
  if (region === 'hip' && t.kind === 'fit-changed' && /\bhips?\b/.test(t.text))
    return { ...t, kind: 'hip-out' };
  if (t.kind === 'skin-open' && (OF_A_COVER.test(t.text) || OF_A_PART.test(clause.slice(0, t.at))))
    return { ...t, kind: 'broken' };
  const ofSkin =
    t.kind === 'broken' &&
    (SKIN_BY_A_PART.test(clause.slice(0, t.end)) ||
      (!has(patterns.device, clause) && namedIn(said).some(isMark)));
  return ofSkin ? { ...t, kind: 'skin-open' } : t;
}

/** 'Old mark settled; new one on L': one more of what was spoken of. */
export function anotherOf(clause: string, spoken: FindingKind | null): Term[] {
  const another = spoken && /\b(?:new|another|fresh|second) (?:1|one)\b/.exec(clause);
  if (!another) return [];
  const { index: at, 0: text } = another;
  if (DOES_NOT.test(clause.slice(at + text.length))) return [];
  return spoken.startsWith('skin') ? [{ at, end: at + text.length, text, kind: spoken }] : [];
}

/** 'The old one rubbed; the new one does not'. */
const DOES_NOT =
  /^\s*(?:(?:does|did|do|has|is) ?(?:not|nt)|(?:is |feels? |fits? )?(?:fine|ok|good|well|better|comfy|comfortable))\b/;
