import type { FindingKind } from '../finding.js';
import words from './note-words.json' with { type: 'json' };
import { anyOf } from './phrases.js';

/** A muscle and what became of it, in either order, up to three words between them: 'gastroc a bit tighter', 'release of psoas'. */
function changedMuscles(): RegExp {
  const [muscle, change] = [anyOf(words.muscles).source, anyOf(words.tightened).source];
  const between = '(?:[\\s-]+(?!no\\b|not\\b)[a-z0-9]+){0,3}?[\\s-]+';
  return new RegExp(`${muscle}${between}${change}|${change}${between}${muscle}`, 'g');
}

/** Words that name a finding, by its kind. */
export const kinds: readonly { readonly kind: FindingKind; readonly pattern: RegExp }[] = [
  ...Object.entries(words.findings).map(([kind, list]) => ({
    kind: kind as FindingKind,
    pattern: anyOf(list),
  })),
  { kind: 'fit-changed', pattern: changedMuscles() },
];
/** What else a note says, made from the lists of words. */
export const patterns = {
  notFindings: anyOf(words.notFindings),
  negated: anyOf(words.negation.before),
  negatedAfter: anyOf(words.negation.after),
  negationEnds: anyOf(words.negation.ends),
  doubled: anyOf(words.negation.double),
  lasting: anyOf(words.lasting),
  fades: anyOf(words.fades),
  quickly: anyOf(words.quickly),
  resolved: anyOf(words.resolved),
  almostResolved: anyOf(words.almostResolved),
  history: anyOf(words.history),
  returns: anyOf(words.returns),
  advice: anyOf(words.advice),
  adviceAfter: anyOf(words.adviceAfter),
  others: anyOf(words.others),
  othersHave: anyOf(words.othersHave),
  othersReport: anyOf(words.othersReport),
  device: anyOf(words.device),
  coloured: anyOf(words.colouredThings),
  colourChoice: anyOf(words.colourChoice),
  colours: anyOf(words.colours),
  bones: anyOf(words.bones),
  needDevice: anyOf(words.needDevice),
  filler: anyOf(words.bareFiller),
  notDurations: anyOf(words.notDurations),
  places: anyOf(words.places),
  clear: anyOf(words.clear),
  planned: anyOf(words.planned),
  elsewhere: anyOf(words.elsewhere),
  nothingSeen: anyOf(words.nothingSeen),
  noneNow: anyOf(words.noneNow),
  unbraced: anyOf(words.unbraced.always),
  unbracedByHelmet: anyOf(words.unbraced['but on a helmet']),
  unbracedByHandSplint: anyOf(words.unbraced['but on a hand splint']),
  still: anyOf(['still', 'noch', 'encore', 'todavia', 'yet']),
};
