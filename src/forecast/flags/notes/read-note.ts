import type { IsoDate } from '../../../records/dates.js';
import { FADES_WITHIN_MINUTES } from '../../../records/skin-check.js';
import type { Region } from '../../../rules/fit-rule.js';
import { type FindingKind, isOfDevice, type NoteFinding, severityOf } from '../finding.js';
import { amendFinding } from './amend-finding.js';
import { changedNumbers } from './changed-numbers.js';
import { doneDaysAgo, lastedMinutes } from './durations.js';
import { ONLY_ON } from './fits-place.js';
import { isMark, markKind } from './mark-kind.js';
import { likeliestKind, noteOdds } from './note-odds.js';
import { patterns, type Term } from './note-patterns.js';
import { isOfThings } from './of-things.js';
import { isPast, OLD_DEVICE } from './past-terms.js';
import { findAll, has, withoutArticles } from './phrases.js';
import { placeOf, sideOf } from './place-and-side.js';
import { plainText } from './plain-text.js';
import { HANDED_OUT, LISTED, ofSomebodyElse, type Silenced, silencedBy } from './silenced-terms.js';
import { splitClauses } from './split-clauses.js';
import { anotherOf, termsOf } from './terms-of-clause.js';
import { unclearIn } from './unclear-words.js';
import { isOfThen } from './well-now.js';

export interface ReadNote {
  readonly findings: readonly NoteFinding[];
  /** It says that the skin was looked at and is well. */
  readonly skinClear: boolean;
}

/** 'Cracked? No.' */
const ASKED_AND_DENIED =
  /[^.,;!?\n]*\?\s*(?:no|(?:\w+ )?(?:never|not|havent|hasnt) (?:noticed|seen) (?:any|1|it|that)|nope|nil|none|not at all|never|nein|non)(?: (?:reported|noted|seen|found|at all|today|now|so far|thankfully|thanks|since|per (?:mum|dad|carer)))*(?=\s*(?:[.,;!\n]|$))|\basked (?:if|whether|does|do|is|are) [^.;?\n]*? (?:says|said|answered|replied) (?:no|not|none)\b/g;

/** 'Smoothed so as not to catch'. */
const SO_THAT_NOT = /\bso (?:as not to|that it does not|it does not|it doesnt|it wont) [a-z]+/g;

/**
 * Reads a free note clause by clause: what was found, unless it is denied, was long ago and is healed, is only advice, is
 * somebody else's, or is the colour of a strap. Redness with a time of 20 minutes or less is no finding.
 */
export function readNote(
  note: string,
  region: Region | null = null,
  writtenOn: IsoDate | null = null,
): ReadNote {
  const year = writtenOn === null ? null : Number(writtenOn.slice(0, 4));
  const key = `${region}/${year}/${note}`;
  const before = known.get(key);
  if (before) return before;
  const read = readAnew(note, region, year);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, read);
  return read;
}

/** 'The outgrown pair can go. Those were the ones with torn straps.' */
const THOSE = /^\s*(?:those|they|these|that (?:1|pair)) (?:were|was|had)\b/;

/** Notes read lately: a child's are asked for at every forecast, page and list. */
const known = new Map<string, ReadNote>();
const MOST_KNOWN = 5000;

// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: what is silenced, carried on and amended goes from clause to clause, so it is one walk
function readAnew(note: string, region: Region | null, year: number | null): ReadNote {
  const written = plainText(note).replace(/\b(?:19|20)\d\d\b/g, (y) =>
    year !== null && Number(y) < year ? 'years ago' : y,
  );
  const text = blanked(blanked(blanked(written, patterns.notFindings), ASKED_AND_DENIED), SO_THAT_NOT);
  let found: NoteFinding[] = [];
  let spoken: FindingKind | null = null;
  let namesAny = text !== written;
  let ofTheOld = false;
  for (const sentence of splitClauses(text)) {
    if (ofTheOld && THOSE.test(sentence[0].text)) continue;
    ofTheOld = sentence.some((clause) => OLD_DEVICE.test(clause.text));
    let silenced: Silenced = null;
    let current = found.at(-1);
    /** 'Off for 40 minutes, still pink': said before what it is said of. */
    let offMinutes: number | null = null;
    let said = '';
    for (const clause of sentence) {
      const named = termsOf(clause.text, region, clause.continues ? said : '');
      said = clause.text;
      let terms = named.length > 0 ? named : anotherOf(clause.text, spoken);
      if (named.length > 0) spoken = named[named.length - 1].kind;
      if (terms.length === 0) {
        const before: NoteFinding | undefined = current;
        if (current) current = amendFinding(found, current, clause.text);
        else offMinutes = /\boff\b/.test(clause.text) ? lastedMinutes(clause.text) : null;
        if (current === before) terms = unclearIn(clause.text);
      }
      if (terms.length === 0) {
        silenced = aboutOthers(clause.text);
        continue;
      }
      namesAny = true;
      const carried: Silenced = clause.continues && goesOn(clause.text, terms, silenced) ? silenced : null;
      for (const term of terms) {
        silenced = carried ?? silencedBy(clause, term);
        if (silenced === 'denied') {
          found = found.filter((f) => f.kind !== term.kind || !isGoneNow(clause.text, f));
          current = found.at(-1);
        }
        if (silenced !== null || isPast(clause.text, term) || isOfThings(clause.text, term)) continue;
        const finding = findingOf(clause.text, term, offMinutes);
        // 'Red mark' is one mark; one that 'has turned dark' is the worse of two.
        if (finding && current?.words === finding.words && isMark(current) && isMark(finding)) {
          if (finding.kind === 'skin-mark') continue;
          found = found.filter((f) => f !== current);
        }
        current = finding ?? undefined;
        if (finding) found.push(finding);
      }
    }
  }
  const changed = changedNumbers(text, region).map(({ kind, words }) => ({
    ...{ kind, words, where: null, side: sideOf(words), minutes: null },
  }));
  if (found.length > 0 || changed.length === 0)
    found = named(heldAgainstTheWhole(note, found, namesAny ? HARM_AFTER_ALL : HARM_ABOVE), note, region);
  return { findings: merged([...found, ...changed]), skinClear: has(patterns.clear, text) };
}

/**
 * What was read clause by clause against the note as a whole: where its words are those of notes that tell of nothing, what
 * would only be looked at goes; where they are those of notes to act on and no clause says of what, somebody looks. What
 * cannot wait stands however cheerful the note, and so does an operation, done or planned.
 */
function heldAgainstTheWhole(note: string, found: NoteFinding[], harmAbove: number): NoteFinding[] {
  const odds = noteOdds(note);
  if (odds === null) return found;
  if (found.length === 0 && odds > harmAbove)
    return [{ kind: 'unclear', where: null, side: null, minutes: null, words: note.trim() }];
  return found.filter(
    ({ kind, words, daysBefore }) =>
      odds > HARMLESS_BELOW ||
      severityOf[kind] !== 'look' ||
      PAST_AN_END.test(words) ||
      kind === 'treatment-planned' ||
      daysBefore !== undefined,
  );
}

/** What no clause says of what it is has the kind, and so the urgency, of what the whole note is likeliest of. */
function named(found: NoteFinding[], note: string, region: Region | null): NoteFinding[] {
  if (found.length === 0 || found.some((f) => f.kind !== 'unclear')) return found;
  const likeliest = likeliestKind(note, (kind) => (ONLY_ON[kind] ?? region) === region);
  if (!likeliest || likeliest.odds < (likeliest.kind.startsWith('skin') ? EVEN : NAMED_ABOVE)) return found;
  return found.map((f) => ({ ...f, kind: likeliest.kind }));
}

/** 'Toes 4 mm past the end': measured. */
const PAST_AN_END =
  /\b\d+(?:\.\d+)? ?[mc]m\b.*\b(?:past|over|beyond|off|short|shorter|below|above|lower|higher|too)\b/;

/** Log odds, set on the notes of sixteen writers each left out of the weights: see models/notes. */
const HARM_ABOVE = 1.5;
/** What a clause names and another takes back weighs by its words all the same: more is asked of the rest. */
const HARM_AFTER_ALL = 6;
const HARMLESS_BELOW = -1.25;
/** A third as likely as not is still the likeliest of fourteen kinds; skin has words of its own, and is no guess. */
const NAMED_ABOVE = -1;
const EVEN = 0;

/** What a clause without a finding says of those behind it: they are somebody else's, or only what a leaflet lists. */
function aboutOthers(clause: string): Silenced {
  if (HANDED_OUT.test(clause)) return 'denied';
  if (LISTED.test(clause)) return 'advice';
  return ofSomebodyElse(clause) || IS_SO.test(clause) ? 'others' : null;
}
/** 'Mum pregnant', 'dad on crutches'. */
const IS_SO = new RegExp(
  `(?:${patterns.others.source}) (?:is |was )?(?:pregnant|unwell|ill|poorly|on crutches|in hospital|recovering|off work)\\b`,
);

/** A text without what a pattern finds; every place in it stays. */
const blanked = (text: string, pattern: RegExp): string =>
  findAll(pattern, withoutArticles(text)).reduce(
    (rest, m) => rest.slice(0, m.at) + ' '.repeat(m.end - m.at) + rest.slice(m.end),
    text,
  );

/**
 * Does a clause go on where the one before was silenced? A bare item of a list does; so do advice ('if sore, red or swollen
 * leave off') that does not turn to today, and what is told of somebody else ('sibling has them too, he has had blisters').
 */
function goesOn(clause: string, terms: readonly Term[], silenced: Silenced): boolean {
  if (SAYS_NOT.test(clause)) return false;
  if (isBare(clause, terms)) return true;
  if (silenced === 'denied') return END_OF_LIST.test(clause);
  if (silenced === 'advice')
    return !has(patterns.returns, clause) && sideOf(clause) === null && !STATES.test(clause);
  return silenced === 'others' && SAME_ONE.test(clause);
}
/** 'Bruised at football, cannot get it on': a new thing, and no item of a list. */
const SAYS_NOT = /^\s*(?:cannot|cant|could ?n[o']?t|unable|wont|will not|does ?n[o']?t|not able)\b/;
/** 'Asked whether it should hurt, heel is raw': told of today, with a subject and a verb of its own. */
const STATES = /^\s*(?!if |when |any )(?:[a-z]+ ){1,3}(?:is|are|has|looks?|feels?)\b/;
/** 'No swelling, heat or breakdown': words only, with no verb that says a new thing. */
const END_OF_LIST = /^\s*(?:[a-z-]+ )?[a-z-]+ (?:or|nor|oder|ou|of) (?:[a-z-]+ ){0,2}[a-z-]+\s*[.;]?\s*$/;
const SAME_ONE =
  /\b(?:his|her|their) own\b|^\s*(?:still|(?:has|is|are|was|were) still) \w+\s*[.;]?\s*$|^\s*(?:.*\ball over (?:him|her|them)\b)|\b(?:himself|herself|themselves)\b|^\s*(?:had|got|gets|developed|needed)\b|^\s*(?:[a-z]+ ){1,3}after(?:wards)?\s*$|^\s*(?:(?:who|he|she|they|whose|his|hers?) (?:has|had|have|was|were|is|also|got|gets)|(?:broke|lost|tore|wore|had|got|needs?) (?:his|her|their)(?: (?:own|last|old|first))?)\b/;

/** 'Redness at the trim last time; no redness today', but not 'no new redness today': a mark that did not last. */
const isGoneNow = (clause: string, { kind, words }: NoteFinding): boolean =>
  (kind === 'skin-mark' || isOfThen(kind, words)) &&
  /\b(?:today|now|currently|at present|this time|since)\b/.test(clause) &&
  !/\b(?:new|other|further|more)\b/.test(clause);

/** Who says so and where: 'reported by family', 'on exam'. */
const SAID_SO =
  /\b(?:reported|noted|seen|found|mentioned|described|raised|observed)?\s*(?:by|from|per|on|at|in|since|this|over) (?:the |his |her |last |this )?(?:family|parents?|mum|mom|dad|carers?|school|nursery|staff|teacher|patient|pt|child|him|her|exam\w*|inspection|removal|visit|review|today|holidays?|summer|half term)\s*\.?\s*$/;

/** A clause that is nothing but terms and filler is one more item of a list: 'no redness, swelling or pain reported by mum'. */
function isBare(clause: string, terms: readonly Term[]): boolean {
  let rest = clause.replace(SAID_SO, (said) => ' '.repeat(said.length));
  for (const t of terms.toReversed()) rest = `${rest.slice(0, t.at)} ${rest.slice(t.end)}`;
  return (
    rest
      .replace(patterns.filler, ' ')
      .replace(/\b(with )?(hers|his|theirs|too|as well)\b/g, ' ')
      .replace(/[^a-z0-9]+/g, '') === ''
  );
}

function findingOf(clause: string, term: Term, offMinutes: number | null): NoteFinding | null {
  const minutes = lastedMinutes(clause) ?? (has(patterns.still, clause) ? offMinutes : null);
  const base = { where: placeOf(clause, term), side: sideOf(clause), words: clause.trim() };
  if (term.kind === 'fit-changed' && has(patterns.planned, clause))
    return { ...base, kind: 'treatment-planned', minutes: null };
  const ago = term.kind === 'fit-changed' ? doneDaysAgo(clause) : null;
  if (ago !== null) return { ...base, kind: term.kind, minutes: null, daysBefore: ago };
  const soonGone = term.kind === 'skin-lasting' && minutes !== null && minutes <= FADES_WITHIN_MINUTES;
  if (term.kind !== 'skin-mark' && !soonGone) return { ...base, kind: term.kind, minutes };
  const kind = markKind(clause, minutes);
  return kind === null ? null : { ...base, kind, minutes };
}

/** One finding a kind and side: the one that says most. */
function merged(found: readonly NoteFinding[]): NoteFinding[] {
  const best = new Map<string, NoteFinding>();
  const isOfTheBreak = ({ words }: NoteFinding) =>
    NOT_WORN.test(words) && found.some((f) => isOfDevice(f.kind));
  for (const f of found) {
    if (isOfTheBreak(f)) continue;
    const key = `${f.kind}/${f.side ?? ''}`;
    const old = best.get(key);
    if (!old || (old.minutes ?? 0) < (f.minutes ?? 0)) best.set(key, f);
  }
  const all = [...best.values()];
  const lasting = all.some((f) => f.kind === 'skin-lasting');
  return all.filter((f) => !(lasting && f.kind === 'skin-mark'));
}

/** 'Ankle joint cracked through; not worn since': broken, it cannot be worn. */
const NOT_WORN = /^(?:(?:he|she|it|they|has|have|is|was) )*not (?:been )?worn (?:since|for)\b/;
