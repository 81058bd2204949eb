import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Action, DeviceDecision, Reason } from '../contract.js';
import type { DeviceFacts } from './decide-device.js';

export type Choice = Pick<DeviceDecision, 'action' | 'reason' | 'dueBy'>;

/** From this chance that the visit finds it needed a cast is planned; from the other a look with the deciding figure. */
const PLAIN = 0.8;
const WORTH_A_LOOK = 0.2;
/** So near the end of usual life a look at wear counts as the look at its end, days. */
const LIFE_LOOK_DAYS = 61;

const choose = (
  action: Action,
  dueBy: IsoDate | null,
  code: Reason['code'],
  numbers: Reason['numbers'] = {},
): Choice => ({ action, dueBy, reason: { code, numbers } });

type Rule = (facts: DeviceFacts) => Choice | null;

/** What a device asks for, in the order in which it is looked for: the first that holds. */
export function chooseAction(facts: DeviceFacts): Choice {
  for (const rule of inOrder) {
    const choice = rule(facts);
    if (choice) return choice;
  }
  const next = [facts.castBy, facts.reviewBy].flatMap((d) => d ?? []).sort()[0];
  return choose('none', next, 'fits-for-now', { next });
}

const seeNow: Rule = ({ flags, device, rule, today }) => {
  const flag = flags.find(
    (f) =>
      f.severity === 'act-now' &&
      (f.deviceId === null
        ? f.series?.measure !== 'head_circumference' || rule?.region === 'head'
        : f.deviceId === device.id),
  );
  return flag ? choose('see-now', today, 'red-flag', { flag: flag.id }) : null;
};

const repair: Rule = ({ history, today }) =>
  history.brokenOn ? choose('repair', today, 'broken', { on: history.brokenOn }) : null;

/** The next one is on its way: no second recall, and nothing is said to fit. */
const beingMade: Rule = ({ replacement }) => {
  if (!replacement) return null;
  const expected = replacement.expectedFitting;
  return choose(
    'none',
    expected,
    replacement.late ? 'being-made-late' : 'being-made',
    expected ? { expected } : {},
  );
};

/** A reviewer's 'outgrown' needs no reading to be believed. */
const judgedOutgrown: Rule = ({ forecast, today, castBy }) => {
  const said = forecast?.lastVerdict;
  if (forecast?.outcome !== 'already-outgrown' || said?.verdict !== 'outgrown') return null;
  return choose('cast', castBy ?? today, 'judged-outgrown', { on: said.date });
};

const measure: Rule = ({ forecast, rule, today, until, castBy, record, reviewBy }) => {
  if (!rule || record.child.palliative || forecast?.outcome === 'adult') return null;
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
  const numbers = {
    measure: needed.measure,
    ...(needed.side ? { side: needed.side } : {}),
    ...(needed.date ? { date: needed.date } : {}),
    ...(needed.slip ? { slip: needed.slip } : {}),
  };
  // A missing size about the cast, a first halt, or one dimension left out lately matters once something hangs on it.
  const canWait =
    needed.why === 'no-reading-near-cast' ||
    needed.why === 'growth-stopped' ||
    (needed.why === 'readings-too-old' && forecast.outcome !== 'too-few-measurements');
  if (canWait && (castBy === null || castBy > until)) return null;
  // Too old since the review that was missed.
  const since = needed.why === 'readings-too-old' && reviewBy < today ? reviewBy : today;
  return choose('measure', since, needed.why, numbers);
};

const castIsDue = ({ castBy, until, neededAtVisit }: DeviceFacts): boolean =>
  castBy !== null && castBy <= until && (neededAtVisit ?? 0) >= WORTH_A_LOOK;

/** A cast that is plainly due, or due before anything else, comes before adjusting or renewing a part. */
const castComesFirst = (facts: DeviceFacts, by: IsoDate): boolean =>
  castIsDue(facts) && ((facts.neededAtVisit ?? 0) >= PLAIN || (facts.castBy ?? by) <= by);

const adjust: Rule = (facts) => {
  const step = facts.adjust;
  if (!step || step.by > facts.until || castComesFirst(facts, step.by)) return null;
  const { what, measure: of, side, mm, by } = step;
  return choose('adjust', by, 'adjustment-due', { what, measure: of, side, mm, by });
};

const renewPart: Rule = (facts) => {
  if (!facts.part || facts.part.by > facts.until || castComesFirst(facts, facts.part.by)) return null;
  return choose('renew-part', facts.part.by, 'part-due', { part: facts.part.part, by: facts.part.by });
};

const castOrCheck: Rule = (facts) => {
  const { castBy, today, neededAtVisit, beyondUseSince, forecast, fundedFrom } = facts;
  if (castBy === null || !castIsDue(facts)) return null;
  const tight = forecast?.lastVerdict?.verdict === 'tight' ? forecast.lastVerdict.date : null;
  if (beyondUseSince) return choose('cast', castBy, 'beyond-use', { since: beyondUseSince });
  if (tight) return choose('cast', castBy, 'judged-tight', { on: tight });
  // Nobody pays yet: a look in the meantime instead of a cast.
  if (fundedFrom && fundedFrom > castBy)
    return choose('check', castBy, 'not-funded-yet', { from: fundedFrom });
  const late = castBy < today;
  return choose((neededAtVisit ?? 0) >= PLAIN ? 'cast' : 'check', castBy, late ? 'cast-late' : 'cast-due', {
    castBy,
  });
};

/** Grown up with little room left: no date will come, so it is looked at now. */
const grownIntoIt: Rule = ({ forecast, chanceToday, accepted, today }) =>
  forecast?.outcome === 'full-grown' && (chanceToday ?? 0) > accepted
    ? choose('check', today, 'cast-due', { castBy: today })
    : null;

/** Straps, joints and shell do not last for ever, whatever growth does. */
const usualLifeOver: Rule = ({ forecast, history, until, record }) => {
  const end = forecast?.usualLifeEnds?.to;
  if (!end || end > until || record.child.palliative) return null;
  const looked = history.since.at(-1)?.date ?? '';
  if (looked >= addDaysIso(end, -LIFE_LOOK_DAYS)) return null;
  return choose('check', end, 'usual-life-over', { end });
};

const review: Rule = ({ reviewBy, until, forecast, record, rule }) => {
  if (reviewBy > until) return null;
  const wear =
    record.child.palliative || (forecast !== null && ['full-grown', 'adult'].includes(forecast.outcome));
  return choose('review', reviewBy, !rule ? 'no-rule' : wear ? 'wear-review' : 'review-due', {
    by: reviewBy,
  });
};

const inOrder: readonly Rule[] = [
  seeNow,
  repair,
  beingMade,
  judgedOutgrown,
  measure,
  adjust,
  renewPart,
  castOrCheck,
  grownIntoIt,
  usualLifeOver,
  review,
];
