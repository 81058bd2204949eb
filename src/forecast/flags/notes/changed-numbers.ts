import type { Region } from '../../../rules/fit-rule.js';
import type { FindingKind } from '../finding.js';

interface Measured {
  readonly name: RegExp;
  readonly only?: Region;
  readonly worse: 'more' | 'less';
  /** From so much on it is told; a goniometer or a film read twice strays by about as much (common practice, no source). */
  readonly least: number;
  readonly kind: FindingKind;
}

/** What is measured in degrees, per cent or centiles, and which way is the worse. */
const measured: readonly Measured[] = [
  { name: /\b(?:df|dorsi ?flexion|dorsiflex)\b/g, worse: 'less', least: 5, kind: 'fit-changed' },
  {
    name: /\b(?:knee ext\w*|hip ext\w*|abduct\w*|abd|slr|supination|pronation)\b/g,
    worse: 'less',
    least: 10,
    kind: 'fit-changed',
  },
  { name: /\b(?:popliteal angle|pop angle|ffd|thomas)\b/g, worse: 'more', least: 10, kind: 'fit-changed' },
  {
    name: /\b(?:cobb|curve|scoliosis|thoracic|lumbar|film|xray|x ray|oob|out of brace|in brace|angle)\b/g,
    only: 'trunk',
    worse: 'more',
    least: 5,
    kind: 'fit-changed',
  },
  {
    name: /\b(?:atr|scoliometer|rib hump|hump)\b/g,
    worse: 'more',
    least: 3,
    kind: 'fit-changed',
  },
  { name: /\b(?:mp|migration(?: percentage)?|reimers)\b/g, worse: 'more', least: 5, kind: 'fit-changed' },
  {
    name: /\b(?:hc|ofc|head circ\w*|head circumference)\b/g,
    only: 'head',
    worse: 'more',
    least: 20,
    kind: 'head-warning',
  },
];

const NUMBER = String.raw`([-+]?\d+(?:\.\d+)?|neutral|plantigrade)(?:st|nd|rd|th)?`;
const FILL = String.raw`[^.;\n\d+-]{0,35}`;
/** When it was read before. */
const TIME = String.raw`(?:last \w+|(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*|the (?:spring|summer|autumn|winter)|(?:spring|summer|autumn|winter)|years ago|clinic|review|\w+ (?:days|weeks|wks|months|mths) ago)\b`;
const WAS = String.raw`\b(?:was|were|having been|prev|previous|previously|before|from|compared (?:to|with)|up from|down from|${TIME})\b`;
const TODAY = String.raw`\b(?:now|todays?)\b`;
const DEGREES = '(?: ?deg\\w*| ?%)?';
/** 'DF from +10 to -5', '38 (was 29)', 'was 50th now 91st', '25 to 33', '6 in January, 11 today'. A dot begins a new sentence but in a number. */
const FORMS: readonly { readonly form: RegExp; readonly before: number; readonly now: number }[] = [
  {
    form: new RegExp(`^${FILL}${NUMBER} (?:deg\\w* )?(?:in|at|on|last) ${FILL}${TODAY} ?${NUMBER}`),
    before: 1,
    now: 2,
  },
  {
    form: new RegExp(`^${FILL}${NUMBER}${DEGREES} (?:in |at |on )?${TIME}${FILL}${NUMBER}${FILL}${TODAY}`),
    before: 1,
    now: 2,
  },
  {
    form: new RegExp(
      `^${FILL}(?:was|were|from|prev\\w*)${FILL}${NUMBER}${FILL}\\b(?:to|now|today|is)\\b${FILL}${NUMBER}`,
    ),
    before: 1,
    now: 2,
  },
  { form: new RegExp(`^${FILL}${NUMBER}${FILL}${WAS}${FILL}${NUMBER}`), before: 2, now: 1 },
  {
    form: new RegExp(`^${FILL}${NUMBER}${FILL}\\bagainst ${NUMBER}${DEGREES} (?:in |at |on )?${TIME}`),
    before: 2,
    now: 1,
  },
  {
    form: new RegExp(`^${FILL}${NUMBER}${DEGREES} ${TODAY},? ${NUMBER}${FILL}\\b(?:in|at|on|last|then)\\b`),
    before: 2,
    now: 1,
  },
  { form: new RegExp(`^${FILL}${NUMBER}${DEGREES},? (?:to|now) ${NUMBER}`), before: 1, now: 2 },
];
/** 'Cobb up 9', 'abduction down by 15'. */
const BY =
  /^[^.;\n\d+-]{0,15}\b(up|increased|gained|worse|progressed|down|reduced|decreased|lost|less)\b(?: by)? (\d+)/;

/** 'Neutral' is nought. */
const degrees = (said: string): number => (/\d/.test(said) ? Number(said) : 0);

/** By how much a figure has risen since it was last named in a text that begins behind its name; null where it does not say. */
function risenBy(text: string): { by: number; words: string } | null {
  for (const { form, before, now } of FORMS) {
    const said = form.exec(text);
    if (said) return { by: degrees(said[now]) - degrees(said[before]), words: said[0] };
  }
  const said = BY.exec(text);
  if (!said) return null;
  const by = Number(said[2]) * (/^(?:down|reduced|decreased|lost|less)$/.test(said[1]) ? -1 : 1);
  return { by, words: said[0] };
}

/** Figures that a note gives with what they were, and that have become worse by more than they stray. */
export function changedNumbers(
  text: string,
  region: Region | null,
): { readonly kind: FindingKind; readonly words: string }[] {
  return measured
    .filter(({ only }) => only === undefined || only === region)
    .flatMap(({ name, worse, least, kind }) => {
      for (const named of text.matchAll(name)) {
        const risen = risenBy(text.slice(named.index + named[0].length));
        if (risen && (worse === 'more' ? risen.by : -risen.by) >= least)
          return [{ kind, words: named[0] + risen.words }];
      }
      return [];
    });
}
