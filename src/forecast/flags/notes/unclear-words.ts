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

/**
 * A word that is not known here, said of a part of the body: 'the heel looks waxy', 'skin is very papery'. Nobody can list
 * all that can be wrong with skin; what can be well with it is soon listed.
 */
export function unclearIn(clause: string): Term[] {
  return [...clause.matchAll(SAID_OF)].flatMap((m) => {
    const rest = clause.slice(m.index + m[0].length);
    const [word] = WORD.exec(rest) ?? [''];
    if (word.length < 4 || rest.search(KNOWN) === 0) return [];
    return [
      { at: m.index, end: m.index + m[0].length + word.length, text: m[0] + word, kind: 'unclear' as const },
    ];
  });
}
