import type { ReadingNeeded } from '../../forecast/contract.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Action, Reason } from '../contract.js';
import { amountUnknown, fitChanged, hipAngleOff, noted, repair, seeNow } from './as-told.js';
import {
  barsNotRecorded,
  castIsDue,
  isKnown,
  isPlain,
  PLAIN,
  readingsLeaveNone,
  readingsLeaveRoom,
  SAME_DAYS,
  saidOtherwise,
  saidTight,
  saidToFit,
} from './cast-unseen.js';
import { figureChance, LEAST_MM } from './check-figure.js';
import { type Choice, choose, type Rule } from './choice.js';
import type { DeviceFacts } from './device-facts.js';

/** So near the end of usual life a look at wear counts as the look at its end, days. */
const LIFE_LOOK_DAYS = 61;

/** What a device asks for, in the order in which it is looked for: the first that holds. */
export function chooseAction(facts: DeviceFacts): Choice {
  for (const rule of inOrder) {
    const choice = rule(facts);
    if (choice) return choice;
  }
  const next = [facts.castBy, nextReviewBy(facts)].flatMap((d) => d ?? []).sort()[0];
  return choose('none', next, 'fits-for-now', { next });
}

/** A newer one is worn in its place, and this one was never taken off the books: it asks for nothing. */
const replaced: Rule = ({ successor, castBy, today, beyondUseSince }) => {
  if (!successor) return null;
  // Two of a kind may be worn in turn while both fit.
  if (!successor.linked && beyondUseSince === null && !(castBy !== null && castBy < today)) return null;
  return choose('none', null, 'replaced', { on: successor.fittedOn });
};

/** The next one is on its way: no second recall, and nothing is said to fit; longer on its way than any was before, it is looked for. */
const beingMade: Rule = ({ replacement, today }) => {
  if (!replacement) return null;
  const { expectedFitting: expected, castOn, late, riskUntilFitted: risk } = replacement;
  if (expected === null) return choose('check', today, 'never-fitted', { on: castOn });
  if (!late) return choose('none', expected, 'being-made', { expected });
  const numbers: Reason['numbers'] = { expected };
  return choose(
    'none',
    expected,
    'being-made-late',
    risk === null ? numbers : { ...numbers, percent: Math.round(100 * risk) },
  );
};

/** A reviewer's 'outgrown' needs no reading to be believed. */
const judgedOutgrown: Rule = ({ forecast, today, castBy }) => {
  const said = forecast?.lastVerdict;
  if (forecast?.outcome !== 'already-outgrown' || said?.verdict !== 'outgrown') return null;
  return choose('cast', castBy ?? today, 'judged-outgrown', { on: said.date });
};

const measure: Rule = (facts) => {
  const { forecast, rule, today, until, record, reviewBy } = facts;
  if (!rule || record.child.palliative) return null;
  if (forecast?.outcome === 'not-computed') return choose('measure', today, 'not-planned');
  const needed = forecast?.readingNeeded ?? null;
  if (forecast === null || forecast.outcome === 'blocked')
    return choose('measure', today, forecast ? 'growth-stopped' : 'never-measured', {
      measure: rule.dimensions[0].measure,
    });
  if (needed === null) {
    // Readings of other dimensions are old, or none was ever taken.
    if (forecast.outcome !== 'too-few-measurements') return null;
    return choose('measure', today, 'never-measured', { measure: rule.dimensions[0].measure });
  }
  if (waitsForCast(needed, facts)) return null;
  const by = isForReview(needed, facts) ? reviewBy : today;
  return by > until ? null : choose('measure', by, needed.why, numbersOf(needed));
};

const numbersOf = ({ measure, side, date, slip }: ReadingNeeded): Reason['numbers'] => ({
  measure,
  ...(side ? { side } : {}),
  ...(date ? { date } : {}),
  ...(slip ? { slip } : {}),
});

/** The child's height falls behind as well: a halt that is not the limb's alone is measured again without waiting. */
const fallsBehind = ({ flags }: DeviceFacts): boolean =>
  flags.some(
    ({ zShift, series, severity }) =>
      zShift === 'falling' && series?.measure === 'stature' && severity === 'check',
  );

/** A missing size about the cast, a first halt, or one dimension left out lately matters once something hangs on it. */
const waitsForCast = ({ why }: ReadingNeeded, facts: DeviceFacts): boolean =>
  (facts.castBy === null || facts.castBy > facts.until) &&
  (why === 'no-reading-near-cast' ||
    (why === 'growth-stopped' && !fallsBehind(facts)) ||
    (why === 'readings-too-old' && facts.forecast?.outcome !== 'too-few-measurements'));

/** Too old since the review that was missed; never measured but judged to fit, it is measured at the next one. */
const isForReview = ({ why }: ReadingNeeded, { forecast, reviewBy, today }: DeviceFacts): boolean =>
  why === 'readings-too-old' ? reviewBy < today : why === 'never-measured' && saidToFit(forecast) !== '';

/**
 * A cast that is plainly due, or due before anything else, comes before adjusting or renewing a part; so does one due by
 * about the same visit where a reviewer found the device tight.
 */
function castComesFirst(facts: DeviceFacts, by: IsoDate): boolean {
  const { castBy, today } = facts;
  if (castBy === null || !castIsDue(facts)) return false;
  const sameVisit = saidTight(facts) !== null && castBy <= addDaysIso(by < today ? today : by, SAME_DAYS);
  return isPlain(facts) || castBy <= by || sameVisit;
}

/** What falls due after the next usual review, or about the first look at a new device, is seen to there. */
const atTheReview = ({ reviewBy, firstLookBy, until }: DeviceFacts, by: IsoDate): boolean =>
  (reviewBy <= until && by > reviewBy) ||
  (firstLookBy !== null && firstLookBy <= until && addDaysIso(by, SAME_DAYS) >= firstLookBy);

const adjust: Rule = (facts) => {
  const step = facts.adjust;
  if (!step || step.by > facts.until || castComesFirst(facts, step.by) || atTheReview(facts, step.by))
    return null;
  // A part that is wanted sooner, or has no room left, has to be made and gives the visit its name; both are done in it.
  const { part, today } = facts;
  const spent = part?.spentOn && part.spentOn <= today;
  if (part && (spent || part.by <= step.by)) return null;
  const { what, measure: of, side, mm, by } = step;
  return choose('adjust', by, 'adjustment-due', { what, measure: of, side, mm, by });
};

const renewPart: Rule = (facts) => {
  const { part, until } = facts;
  if (!part || part.by > until || castComesFirst(facts, part.by) || atTheReview(facts, part.by)) return null;
  return choose('renew-part', part.by, 'part-due', { part: part.part, by: part.by });
};

/**
 * The usual review, or the first look at a new device, comes while a look is early enough: half as much again of the accepted
 * chance is not reached before.
 */
const reviewWillDo = (facts: DeviceFacts): boolean =>
  facts.reviewBy >= facts.today &&
  facts.lookBy !== null &&
  nextReviewBy(facts) <= facts.lookBy &&
  !isPlain(facts) &&
  (facts.chanceToday ?? 0) < facts.accepted;

/** Is it known what is tight: named, or the readings agree? Else it is looked for first. */
const tightWhere = ({ forecast, plainRoom }: DeviceFacts): boolean =>
  (forecast?.lastVerdict?.measure ?? null) !== null ||
  plainRoom === null ||
  plainRoom.leftMm <= plainRoom.tightWithinMm;

/** A review that will all but surely end in a cast is a check: a place for the cast is kept. Nobody casts at the first look. */
function reviewMayCast(facts: DeviceFacts): Choice | null {
  const { forecast, look, today, reviewBy } = facts;
  if (nextReviewBy(facts) < reviewBy) return null;
  const chance = forecast && look.figure ? figureChance(forecast, look.figure, today, reviewBy) : null;
  return chance !== null && chance >= PLAIN
    ? choose('check', reviewBy, 'cast-due', { castBy: reviewBy })
    : null;
}

const castOrCheck: Rule = (facts) => {
  const { castBy, beyondUseSince, fundedFrom } = facts;
  if (castBy === null || !castIsDue(facts)) return null;
  const tight = saidTight(facts);
  if (tight === null && reviewWillDo(facts)) return reviewMayCast(facts);
  const castUnseen = isKnown(facts) && !readingsLeaveRoom(facts) && !barsNotRecorded(facts);
  if (beyondUseSince)
    return choose(castUnseen ? 'cast' : 'check', castBy, 'beyond-use', { since: beyondUseSince });
  if (tight) return choose(tightWhere(facts) ? 'cast' : 'check', castBy, 'judged-tight', { on: tight });
  // Nobody pays yet: a look in the meantime instead of a cast.
  if (fundedFrom && fundedFrom > castBy)
    return choose('check', castBy, 'not-funded-yet', { from: fundedFrom });
  return castAsDated(facts, castBy);
};

/** Known to leave room: nothing to look for. Known to leave too little: nothing to look for first. */
const castAsDated = (facts: DeviceFacts, castBy: IsoDate): Choice | null => {
  const { look, today } = facts;
  if (look.foregone === 'leave' && !isPlain(facts)) return null;
  const foregone = look.foregone === 'cast' && !barsNotRecorded(facts) && !saidOtherwise(facts);
  const sure = isPlain(facts) || foregone;
  return choose(sure ? 'cast' : 'check', castBy, castBy < today ? 'cast-late' : 'cast-due', {
    castBy,
  });
};

/**
 * The readings as they stand leave next to nothing, though growth is expected to have been less: looked at, and cast where they
 * leave nothing that could be read. Where a reviewer found room, the look comes a fortnight before the day to cast by.
 */
const readingsSayLess: Rule = (facts) => {
  const { castBy, until, today, plainRoom } = facts;
  if (!plainRoom) return null;
  const { measure, date, leftMm } = plainRoom;
  const less = (action: Action, by: IsoDate) => choose(action, by, 'readings-say-less', { measure, date });
  if (readingsLeaveNone(facts)) return less(leftMm < LEAST_MM ? 'cast' : 'check', today);
  const by = castBy !== null && saidOtherwise(facts) ? addDaysIso(castBy, -SAME_DAYS) : null;
  return by !== null && by <= until ? less('check', by) : null;
};

/** Grown up with little room left: no date will come, so it is looked at now. */
const grownIntoIt: Rule = ({ forecast, chanceToday, accepted, today }) =>
  forecast?.outcome === 'full-grown' && (chanceToday ?? 0) > accepted
    ? choose('check', today, 'cast-due', { castBy: today })
    : null;

/** Straps, joints and shell do not last for ever, whatever growth does. */
const usualLifeOver: Rule = ({ forecast, history, until, record, reviewBy, today }) => {
  const end = forecast?.usualLifeEnds?.to;
  if (!end || end > until || record.child.palliative) return null;
  const looked = history.since.findLast((e) => e.kind === 'adjusted' || e.verdict !== null)?.date ?? '';
  if (looked >= addDaysIso(end, -LIFE_LOOK_DAYS)) return null;
  // A review looks at wear: one that comes so soon after the end will do.
  if (reviewBy >= today && reviewBy <= addDaysIso(end, LIFE_LOOK_DAYS)) return null;
  return choose('check', end, 'usual-life-over', { end });
};

/** The usual review, or the first look at a new device before it. */
export const nextReviewBy = ({ reviewBy, firstLookBy }: DeviceFacts): IsoDate =>
  firstLookBy !== null && firstLookBy < reviewBy ? firstLookBy : reviewBy;

const review: Rule = (facts) => {
  const { until, rule, wearOnly } = facts;
  const by = nextReviewBy(facts);
  if (by > until) return null;
  const ruled = wearOnly ? 'wear-review' : 'review-due';
  // Named, so that a clinic that writes no first looks down sees what is asked of it.
  const numbers: Reason['numbers'] = by < facts.reviewBy ? { by, first: 1 } : { by };
  return choose('review', by, rule ? ruled : 'no-rule', numbers);
};

const inOrder: readonly Rule[] = [
  seeNow,
  replaced,
  repair,
  beingMade,
  judgedOutgrown,
  measure,
  fitChanged,
  hipAngleOff,
  adjust,
  renewPart,
  castOrCheck,
  noted,
  amountUnknown,
  readingsSayLess,
  grownIntoIt,
  usualLifeOver,
  review,
];
