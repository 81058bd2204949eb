import { patterns, type Term } from './note-patterns.js';
import sentences from './note-sentences.json' with { type: 'json' };
import { anchored, anyOf } from './phrases.js';

const PART = `(?:skin|${patterns.places.source})`;
/** 'Is', 'looks a bit', 'feels': what says how a part of the body is. */
const SAID_OF = new RegExp(
  `${PART}(?: (?:on |at )?(?:l|r|left|right|both))?(?: (?:is|are|looks?|looking|feels?|feeling|seems?|appears?|has gone|have gone|going|getting|turned|turning|still|now|all|a|bit|little|very|quite|rather|really|v|more|today|again))+ (?=[a-z])`,
  'g',
);
const KNOWN = anchored(anyOf(sentences.understood.split('|')));
const WORD = /^[a-z]+/;
/** 'Is sorted', 'from the shoe, not the joint'. */
const WELL = [patterns.resolved, patterns.repaired, patterns.device].map(anchored);

/** 'Not coping', 'cannot tell', 'difficult to don': what does not go as it should; what is bad and is not there is a finding's own word. */
const GOES_NOT =
  /\b(?:not|cannot|cant|couldnt|could not|unable to|never|no longer|wont|doesnt|didnt|isnt|hasnt|havent|stopped|fails? to|failing to|struggl\w+ (?:to|with)|(?:difficult\w*|hard|harder|tricky) to|(?:difficulty|trouble|problems?|issues?) (?:with|in|when)?) (?:(?:be|been|being|really|quite|very|able to|the|at all|always|properly) )*(?=[a-z])/g;
const GOES_WELL_NOT = anchored(anyOf(sentences.negatedWell.split('|')));

/** 'Velocity ++': much of something. */
const MUCH_OF = /\b([a-z]{4,}) plusplus\b/g;

/**
 * A word that is not known here, said of a part of the body, or of what it does not do: 'the heel looks waxy', 'not coping
 * with it'. Nobody can list all that can be wrong; what can be well, and what may be left undone, is soon listed.
 */
export function unclearIn(clause: string): Term[] {
  const unknown = (found: RegExpExecArray, known: RegExp): Term[] => {
    const rest = clause.slice(found.index + found[0].length);
    const [word] = WORD.exec(rest) ?? [''];
    if (
      /\bas (?:expected|usual|always|ever|normal)\b|^\w+ related\b/.test(rest) ||
      word.length < 4 ||
      rest.search(known) === 0 ||
      WELL.some((w) => rest.search(w) === 0)
    )
      return [];
    const end = found.index + found[0].length + word.length;
    return [{ at: found.index, end, text: found[0] + word, kind: 'unclear' }];
  };
  return [
    ...[...clause.matchAll(SAID_OF)].flatMap((m) => unknown(m, KNOWN)),
    ...[...clause.matchAll(GOES_NOT)].flatMap((m) => unknown(m, GOES_WELL_NOT)),
    ...[...clause.matchAll(MUCH_OF)]
      .filter((m) => m[1].search(KNOWN) !== 0)
      .map((m) => ({ at: m.index, end: m.index + m[0].length, text: m[0], kind: 'unclear' as const })),
  ];
}
