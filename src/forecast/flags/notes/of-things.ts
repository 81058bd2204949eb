import { lastedMinutes } from './durations.js';
import { patterns, type Term } from './note-patterns.js';
import { anchored, has } from './phrases.js';

const MARKED = /^(?:mark(?:s|ing)?|grooves?|creases?|creased|furrows?)$/;
const ONLY_A_COLOUR = new RegExp(`^(?:${patterns.colours.source})$`);

/** 'Nails painted blue'. */
const PAINTED = /\b(?:painted|dyed|varnish\w*|polish\w*|face ?paint\w*|henna)\b/;
/** 'A tear in the trouser leg'; what a sock has on it is of the foot in it. */
const IN_CLOTHES =
  /^ in (?:the |his |her )?(?:\w+ )?(?:trousers?|jeans|tights|leggings|coat|jacket sleeve|sleeve|pocket|hat|glove|uniform)\b/;
const MAY_BE_DRAWN = /^(?:skin|broken)/;

/** 'A skull and blood splatter pattern'. */
const A_PICTURE = /^(?: [a-z]+)? (?:patterns?|designs?|prints?|transfers?|themes?|stickers?)\b/;

const isOfItsLooks = ({ kind }: Term, after: string): boolean =>
  (MAY_BE_DRAWN.test(kind) && A_PICTURE.test(after)) || (kind === 'skin-open' && IN_CLOTHES.test(after));

/** 'Thumb splint in blue', 'post-operative knee brace'. */
function isNamedAfter(clause: string, { kind, text, end }: Term): boolean {
  if (kind === 'numbness')
    return PAINTED.test(clause) || has(anchored(patterns.device), text.replace(/^\w+/, ''));
  return (
    /^post ?-?op/.test(text) &&
    has(
      anchored(patterns.device),
      clause.slice(end).replace(/^ (?:knee|hip|abduction|ankle|hinged|spinal)\b/, ''),
    )
  );
}

/** 'red strap wanted' speaks of a colour, 'swollen-looking trainers' of a shoe, 'red strap mark' of the skin. */
export function isOfThings(clause: string, term: Term): boolean {
  if (isOfItsLooks(term, clause.slice(term.end)) || isNamedAfter(clause, term)) return true;
  // Swelling above a sock is of the leg.
  if (term.kind === 'swelling')
    return (
      term.text === 'swollen' &&
      has(anchored(patterns.coloured), followedBy(clause, term).replace(/^looking /, ''))
    );
  if (term.kind !== 'skin-mark') return false;
  return MARKED.test(term.text) ? isMarkedOnThings(clause, term) : isColourOfThings(clause, term);
}

function isMarkedOnThings(clause: string, term: Term): boolean {
  const on =
    /^\s*(?:on|onto|inside|in)(?: (?:the|her|his|their|new|old|school|left|right|both|each))* (.*)$/.exec(
      clause.slice(term.end),
    );
  return on !== null && has(anchored(patterns.markedThings), on[1]);
}

function isColourOfThings(clause: string, term: Term): boolean {
  // 'Red at 1 hour' is of no thing.
  if (!has(ONLY_A_COLOUR, term.text) || lastedMinutes(clause) !== null) return false;
  if (/\b(?:dyed|painted|coloured|colored|sprayed)(?: \w+){0,2}\s*$/.test(clause.slice(0, term.at)))
    return true;
  const drawn =
    /^\s*(?:lines?|dots?|spots?|stains?|cross(?:es)?|arrows?|rings?|circles?) (?:(?:marked|drawn|inked|painted|made) )?(?:on|onto|in)(?: the)? (.*)$/.exec(
      clause.slice(term.end),
    );
  if (drawn && has(anchored(patterns.markedThings), drawn[1])) return true;
  const next = followedBy(clause, term);
  if (/\b(mark|marks|line|lines|area|areas|patch|skin)\b/.test(next)) return false;
  if (has(patterns.coloured, next)) return true;
  const first = clause.slice(0, term.at);
  // 'Spare pair in purple', 'pink brace'; not 'heel red splint off'.
  if (/\bin (?:bright |dark |light )?$/.test(first) && /^\W*$/.test(clause.slice(term.end))) return true;
  if (has(anchored(patterns.device), next) && !has(patterns.places, first)) return true;
  // 'Calf strap: blue, ankle strap: red'.
  const given = /([a-z]+)\s*[:=]\s*$/.exec(clause.slice(0, term.at));
  if (given && (has(patterns.coloured, given[1]) || has(patterns.colourChoice, given[1]))) return true;
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
