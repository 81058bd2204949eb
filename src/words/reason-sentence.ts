import { capital, plainDate } from '../forecast/words.js';
import type { Action, DeviceDecision, Reason, RecallEntry, RecallList } from '../recall/contract.js';
import { isSaidTogether } from '../recall/decide/visit-of.js';
import type { IsoDate } from '../records/dates.js';
import { type MeasureId, measures } from '../records/measure.js';
import type { FitRules } from '../rules/fit-rule.js';
import { isPlural, type NamedDevice, plainDevices } from './device-names.js';
import { urgentReason } from './family/worn-device.js';

type Wants = { readonly action: Action; readonly reason: Pick<Reason, 'code' | 'numbers'> };

/**
 * One sentence a scheduler can read to a parent: no jargon, no score, no diagnosis, at most one figure. Where the skin
 * cannot warn nothing waits for pain: the sentence asks to look.
 */
export function reasonSentence(
  { action, reason }: Wants,
  devices: readonly NamedDevice[],
  skinCannotWarn: boolean,
  rules: FitRules,
  visit: Pick<Words, 'seeBy'> = { seeBy: byDay },
): string {
  const it = plainDevices(devices, rules) || 'the brace';
  const many = isPlural(it);
  const words: Words = {
    it,
    It: capital(it),
    is: many ? 'are' : 'is',
    has: many ? 'have' : 'has',
    next: many ? 'the next ones' : 'the next one',
    date: (name) => plainDate(String(reason.numbers[name])),
    ...visit,
    castBy: String(reason.numbers.castBy),
    measure: measures[reason.numbers.measure as MeasureId]?.plainLabel ?? 'size',
    action,
    ring: skinCannotWarn ? LOOK : RING,
    marks: skinCannotWarn
      ? 'any mark, swelling or warm place, which your child may not feel'
      : 'any red marks, rubbing or pain',
    whileBroken: staysOn(devices, rules)
      ? leaveOn(it)
      : 'please stop wearing anything with a loose or sharp part',
    meanwhile: meanwhile(it, String(reason.numbers.flag ?? ''), devices, rules),
    trouble: skinCannotWarn ? 'a mark, swelling, warmth or a wound' : 'pain, swelling, a wound',
  };
  return sentences[reason.code](words);
}

/** The same list with its sentences. */
export function withSentences(list: RecallList, rules: FitRules): RecallList {
  const textOf = (e: RecallEntry, about: Wants): string =>
    reasonSentence(
      about,
      e.devices.filter((d) => isSaidTogether(d, about)),
      e.alerts.includes('skin-cannot-warn'),
      rules,
      { seeBy: (day) => (e.dueBy !== null && e.dueBy < day ? soonerBy(e.dueBy, list.today) : byDay(day)) },
    );
  const said = (e: RecallEntry): RecallEntry => {
    // A mark under another device of the visit is never left unsaid for the sake of a date.
    const noted = e.devices.find((d) => d.reason.code === 'noted' && !isSaidTogether(d, e));
    const text = [e, ...(noted ? [noted] : [])].map((about) => textOf(e, about)).join(' ');
    return { ...e, reason: { ...e.reason, text }, devices: withDecisionSentences(e.devices, rules) };
  };
  return { ...list, entries: list.entries.map(said), notDue: list.notDue.map(said) };
}

const byDay = (day: IsoDate): string => `by ${plainDate(day)}`;
const soonerBy = (day: IsoDate, today: IsoDate): string => (day > today ? byDay(day) : 'as soon as we can');

/** The same decisions with their sentences. */
export const withDecisionSentences = (
  decisions: readonly DeviceDecision[],
  rules: FitRules,
): DeviceDecision[] =>
  decisions.map((d) => ({
    ...d,
    reason: { ...d.reason, text: reasonSentence(d, [d], d.alerts.includes('skin-cannot-warn'), rules) },
  }));

interface Words {
  readonly it: string;
  readonly It: string;
  readonly is: string;
  readonly has: string;
  readonly next: string;
  readonly date: (name: string) => string;
  /** By when the family is to come, which another device of the visit may bring forward. */
  readonly seeBy: (day: IsoDate) => string;
  readonly castBy: IsoDate;
  readonly measure: string;
  readonly action: Action;
  /** What to do until then, what to tell us, and what not to wait with. */
  readonly ring: string;
  readonly marks: string;
  readonly trouble: string;
  /** What is done with it until somebody has looked. */
  readonly meanwhile: string;
  readonly whileBroken: string;
}

const staysOn = (devices: readonly NamedDevice[], rules: FitRules): boolean =>
  devices.some((d) => rules.get(d.family)?.region === 'hip');
const leaveOn = (it: string): string => `please leave ${it} on until we tell you`;

/** A hip orthosis is never taken off unasked; of a head or of breathing it is said what cannot wait. */
function meanwhile(it: string, flag: string, devices: readonly NamedDevice[], rules: FitRules): string {
  if (staysOn(devices, rules)) return leaveOn(it);
  const why = urgentReason(flag);
  if (why === 'head')
    return `please leave ${it} off until then, and go to the hospital at once if your child throws up, is very sleepy or has a soft spot that bulges`;
  if (why === 'breathing')
    return `please take ${it} off, and call for help at once if it is still hard to breathe`;
  return `please stop wearing ${it} until then`;
}

const RING = 'please ring us sooner if anything rubs, marks or hurts';
const LOOK =
  'please look at the skin every morning and evening, because your child may not feel it, and ring us the same day if you see a mark';

const sentences: Readonly<Record<Reason['code'], (w: Words) => string>> = {
  'red-flag': (w) =>
    `Something in the record must be looked at before anything else, so a clinician would like to see your child today or on the next day we are open; ${w.meanwhile}; if there is ${w.trouble} or your child seems unwell, please do not wait for us to ring.`,
  broken: (w) =>
    `${w.It} ${w.has} been broken since ${w.date('on')}: ${w.whileBroken}, and come so that we can mend or replace it.`,
  lost: (w) =>
    `${w.It} ${w.has} been missing since ${w.date('on')}, so we would like to see your child to replace it.`,
  'never-measured': (w) =>
    `We have no ${w.measure} of your child yet and cannot tell how long ${w.it} will fit, so we would like to measure.`,
  'readings-too-old': (w) =>
    `We last measured the ${w.measure} on ${w.date('date')}, too long ago to tell how long ${w.it} will fit, so we would like to measure again and look at the skin.`,
  'no-reading-near-cast': (w) =>
    `We do not know how large your child was when ${w.it} ${w.is === 'are' ? 'were' : 'was'} made, so we would like to look at the fit.`,
  'slip-unanswered': (w) =>
    `One of the last readings of the ${w.measure} does not go with the others, so we would like to measure again before we decide anything.`,
  'growth-stopped': (w) =>
    `The last readings of the ${w.measure} show no growth where we expected some, so we would like to measure again.`,
  'growth-sprang': (w) =>
    `The last reading of the ${w.measure} is much larger than we expected, so we would like to measure again and look at the fit.`,
  'no-rule': (w) => `The usual look at ${w.it} is due by ${w.date('by')}; please bring it and the shoes.`,
  'adjustment-due': (w) =>
    `${w.It} ${w.is === 'are' ? 'need' : 'needs'} adjusting to your child's growth (due ${w.date('by')}); after that ${w.is === 'are' ? 'they go' : 'it goes'} on being worn.`,
  'part-due': (w) => `A part of ${w.it} needs renewing (due ${w.date('by')}); the rest goes on being worn.`,
  'judged-outgrown': (w) =>
    `${w.It} ${w.is} too small, as was found on ${w.date('on')}, so we would like to cast ${w.next} as soon as we can; ${w.ring}.`,
  'judged-tight': (w) =>
    `${w.It} had next to no room left on ${w.date('on')}, so we would like to cast ${w.next} soon; ${w.ring}.`,
  'beyond-use': (w) =>
    `${w.It} ${w.has} probably been too small since about ${w.date('since')}, so we would like to see you as soon as we can and to hear today of ${w.marks}.`,
  'cast-late': (w) =>
    w.action === 'cast'
      ? `${capital(w.next)} after ${w.it} should have been begun by ${w.date('castBy')}, so we would like to see you as soon as we can; ${w.ring}.`
      : `${w.It} should have been looked at by ${w.date('castBy')}: we would like to check the fit soon and cast ${w.next} then if it is needed; ${w.ring}.`,
  'cast-due': (w) =>
    w.action === 'cast'
      ? `Your child will soon grow out of ${w.it}; to have ${w.next} ready in time we would like to see you ${w.seeBy(w.castBy)}; ${w.ring}.`
      : `Your child may soon grow out of ${w.it}: we would like to check the fit ${w.seeBy(w.castBy)} and cast ${w.next} then if it is needed; ${w.ring}.`,
  'usual-life-over': (w) =>
    `${w.It} ${w.has} been worn about as long as such a device lasts, so we would like to look at shell, joints and straps.`,
  'not-funded-yet': (w) =>
    `${w.It} may be getting small and the next one is paid for from ${w.date('from')}: we would like to look at fit and skin before that; ${w.ring}.`,
  'review-due': (w) =>
    `The usual check of ${w.it} is due by ${w.date('by')}: we measure and look at fit and skin.`,
  'wear-review': (w) =>
    `The usual check of ${w.it} is due by ${w.date('by')}; growth is not what decides here, so please bring the shoes and tell us what has changed.`,
  'being-made-late': (w) => `${capital(w.next)} after ${w.it} may come late; ${w.ring}.`,
  'being-made': (w) =>
    `${capital(w.next)} ${w.is} being made; fitting about ${w.date('expected')}; until then ${w.ring}.`,
  'never-fitted': (w) =>
    `The device cast on ${w.date('on')} has not been recorded as fitted: please tell us whether you have it; we would like to see whether it still fits.`,
  replaced: (w) =>
    `A newer one has been worn since ${w.date('on')}; please bring this one along next time if it is still in use.`,
  'readings-say-less': (w) =>
    `By the ${w.measure} of ${w.date('date')} there is next to no room left in ${w.it}, so we would like to ${w.action === 'cast' ? `cast ${w.next}` : 'look at the fit'} soon; ${w.ring}.`,
  'fit-changed': (w) =>
    `It was noted on ${w.date('on')} that ${w.it} may no longer fit as ${w.is === 'are' ? 'they' : 'it'} should, so we would like to look at ${w.is === 'are' ? 'them' : 'it'}; ${w.ring}.`,
  'hip-angle-off': (w) =>
    `On ${w.date('on')} ${w.it} did not hold the hips quite as set, so we would like to look at ${w.is === 'are' ? 'them' : 'it'} soon; ${w.ring}.`,
  'amount-unknown': (w) =>
    `${w.It} ${w.is === 'are' ? 'were' : 'was'} adjusted on ${w.date('on')}, and we would like to see how much room that has made; ${w.ring}.`,
  noted: (w) =>
    `Something was noted about ${w.it} on ${w.date('on')} that we would like to look at; ${w.ring}.`,
  'fits-for-now': (w) =>
    `Nothing is due on ${w.it} before ${w.date('next')}; please keep the usual checks, and ${w.ring}.`,
  'not-in-use': () => 'No longer in use.',
  'not-planned': (w) =>
    `Something in the record cannot be right, so nothing can be said of how long ${w.it} will fit: we would like to measure and to look at fit and skin.`,
};
