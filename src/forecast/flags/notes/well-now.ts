import { type FindingKind, isOfDevice } from '../finding.js';

/** What may have passed by itself or was mended; skin that is open or lasts, feeling, breath and heads are looked at whatever is said. */
const MAY_PASS: readonly FindingKind[] = [
  'pain',
  'falls',
  'fit-changed',
  'broken',
  'skin-mark',
  'skin-callus',
  'rash',
  'unclear',
];

const WELL =
  /(?<!\b(?:not|never|no longer|isnt|hardly|less|as) )\b(?:well|fine|good|great|grand|ok|okay|lovely|perfect|clear|comfy|comfortable|happy|settled|solid|holds|holding|secure|works|working|symmetrical|symmetric|normal|level|even|quiet|sleeps|sleeping|plenty|painfree|pain free|runs|running|walks|walking|playing|back to (?:full|sport|school|football|normal)|puts? (?:them|it) on|brings? (?:them|it)|gets? (?:them|it) (?:out|on|himself|herself)|asks for (?:them|it)|keeps? (?:them|it) on|wears|tolerat\w+|loves|likes|happily|all day|full ?time|without (?:any )?(?:fuss|bother|trouble|murmur|complaint|problem)s?|no (?:further |more )?(?:bother|problems?|trouble|issues?|complaints?|concerns?|pain|limp|marks?))\b/;
const NOT_WELL = /\b(?:still|again|worse|but|not|cannot|cant|wont|returned|recurr\w+|until|only)\b/;

/** 'Used to limp', 'cried the first two nights', 'had itchy spots', 'sore in the autumn'. */
const THEN =
  /\b(?:used to|had|was|were|did|last years?|cried|screamed|limped|refused|complained|rubbed|hurt|(?:for )?(?:the )?first (?:few |couple of |\d+ )?(?:days?|nights?|weeks?|wks?|hours?)|at first|initially|to begin with|to start with|early on|when new|in (?:the )?(?:spring|summer|autumn|winter|holidays|january|february|march|april|may|june|july|august|september|october|november|december|jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec))\b/;
const SINCE =
  /\b(?:now|since|today|these days|nowadays|currently|at present|afterwards|after that|thereafter|any ?more)\b/;

/** 'Mum worried that it had got too small': a question, until somebody has measured. */
const WORRIED =
  /\b(?:worried|worry|worries|worrying|concerned|anxious|afraid|wondered|wondering|wonders|unsure|scared|frightened|thought|thinks|queried|querying|feared|heard)\b/;
const FOUND_WELL =
  /^\s*(?:it|that) (?:is|was) (?:only |just )?(?:an?|the) [a-z]|\b(?:reassured|(?:he|she|they|it) (?:was|were) (?:fine|ok|okay|well|good)|its only|it is only|it was only|it was just|its just|was only|turned out|turns out|(?:x ?rays?|scans?|films?|bloods?|tests?|mri) (?:is |was |were |all )*(?:clear|normal|fine|ok)|kicking (?:well|strongly|both)|moving (?:well|freely)|nothing wrong|no sign of|not the case|plenty|spare|(?:measured|checked|looked|tested|tried on|examined|seen|actually|in fact|on checking)\b.*\b(?:fine|ok|good|well|plenty|normal|sound|room|correct|fits))\b/;

/** 'Used to limp, now without a limp': denied of today what was told of then. */
export const isOfThen = (kind: FindingKind, words: string): boolean =>
  MAY_PASS.includes(kind) && THEN.test(words);

/** 'Refused to walk for me, ran down the corridor'. */
const NOT_FOR_US = /\b(?:refus\w*|wouldnt|would not|wont|will not)\b.*\bfor (?:me|us|physio|video|camera)\b/;
const BUT_DID = /^\s*(?:then |but )?(?:ran|runs|running|walked|climbed|hopped|jumped|skipped|danced)\b/;

const IS_SO = /\b(?:still|again|worse|not|cannot|cant|wont|over|past|short)\b/;

/** A clause behind tells that what a finding speaks of is over, or was feared only. */
export function isWellNow(kind: FindingKind, words: string, clause: string): boolean {
  const mayBeFeared = kind === 'function-lost' || MAY_PASS.includes(kind);
  if (mayBeFeared && WORRIED.test(words) && FOUND_WELL.test(clause) && !IS_SO.test(clause)) return true;
  if (mayBeFeared && NOT_FOR_US.test(words) && BUT_DID.test(clause)) return true;
  if (!MAY_PASS.includes(kind) || NOT_WELL.test(clause)) return false;
  return isOfThen(kind, words) && SINCE.test(clause) && WELL.test(clause);
}

/** 'Next size up given today as toes had reached the edge': what did not fit is no longer worn. */
const ANOTHER_GIVEN =
  /\b(?:new|next|bigger|larger|longer|wider|size up|replacement|spare)\b[^.;]*\b(?:given|supplied|issued|fitted|provided|posted|delivered|handed over|on today)\b(?! soon| next)|\bnew (?:1|rivet|strap|screw|pad|clip|buckle|liner) (?:in|on)\b/;
/** Was another device given for what a finding tells of? */
export const isReplacedBy = (kind: FindingKind, after: string): boolean =>
  (kind === 'fit-changed' || isOfDevice(kind)) &&
  ANOTHER_GIVEN.test(after) &&
  isProperlyDone(after, after.search(GIVEN));
const GIVEN = /\b(?:given|supplied|issued|fitted|provided|posted|delivered|handed over|on today)\b/;

/** 'To be replaced', 'needs stitching', 'please can it be mended': not done yet. */
const YET_TO_BE_DONE =
  /\b(?:to|be|being|needs?|needed|needing|will|must|please|can|could|wants?|wanted|should|await\w*|waiting|requires?|requesting|asking|asks|for|if|when|once|until|getting|get)(?: (?:be|it|them|a|one|new))*\s*$/;

/** Glued by an uncle or held by tape is no repair. */
export const BODGED =
  /\bby (?:the |his |her )?(?:dad|daddy|mum|mom|mam|gran\w*|nan\w*|uncle|aunt\w*|brother|sister|parents?|family|carers?|school|teacher|caretaker|neighbour|friend)\b|\b(?:tape|gaffer|super ?glue\w*|sellotape|string|cable ties?|bandage|elastic bands?|safety pin|at home)\b/;

export const MENDED_AT_HOME =
  /\b(?:dad|mum|mom|mam|gran\w*|uncle|parents|carer|school|family)\b(?: (?:has|have|had|just))*(?: \w+)? (?:glued|taped|tied|stitched|sewn|bodged|patched|screwed|wired|stuck|mended|repaired|fixed|put)\b/;

/** 'Glued twice already' has not held. */
const TIME_AND_AGAIN = /^\w+ (?:[2-9] ?x|x ?[2-9]|twice|(?:2|3|4|several|many) times)\b/;

/** Is a repair that a text speaks of done, and by those who may do it? */
export const isProperlyDone = (text: string, at: number): boolean =>
  !YET_TO_BE_DONE.test(text.slice(0, at)) &&
  !BODGED.test(text) &&
  !MENDED_AT_HOME.test(text) &&
  !TIME_AND_AGAIN.test(text.slice(at));
