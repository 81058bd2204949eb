import { adjusting, plainDate, plainSeries } from '../forecast/words.js';
import type { DeviceDecision, Reason, RecallEntry } from '../recall/contract.js';
import { counted } from '../records/counted.js';
import type { AdjustmentKind } from '../records/device.js';
import { type MeasureId, measures } from '../records/measure.js';

type Said = Pick<DeviceDecision, 'reason' | 'adjust'>;

/** Why an action is wanted, in a clinician's words; the sentence for a family is another (reason-sentence.ts). */
export function clinicianReason(decision: Said): string {
  const { numbers, code } = decision.reason;
  return reasons[code]({
    date: (name) => (numbers[name] ? plainDate(String(numbers[name])) : 'an unknown day'),
    measure: measureText(numbers),
    adjust: adjustText(decision.adjust),
    percent: numbers.percent ?? null,
    first: numbers.first === 1,
  });
}

/** At how little room the next one is cast at the bench, and before which day otherwise not; empty where no figure decides. */
export const benchFigure = ({ checkFigure: figure }: Pick<DeviceDecision, 'checkFigure'>): string =>
  figure
    ? `Cast if the room at the ${plainSeries(figure)} is ${figure.castIfRoomAtMostMm} mm or less, else not before ${plainDate(figure.elseNotBefore)}.`
    : '';

/** Why a child is on the list, and what decides when it is there. */
export function clinicianWhy(entry: Pick<RecallEntry, 'action' | 'reason' | 'devices'>): string {
  const wanted = entry.devices.filter((d) => d.action === entry.action);
  const reason = clinicianReason({ reason: entry.reason, adjust: wanted[0]?.adjust ?? null });
  return [reason, ...wanted.map(benchFigure)].filter((text) => text !== '').join(' ');
}

interface Words {
  readonly date: (name: string) => string;
  readonly measure: string;
  readonly adjust: string;
  readonly percent: number | string | null;
  readonly first: boolean;
}

const reasons: Readonly<Record<Reason['code'], (w: Words) => string>> = {
  'red-flag': () => 'A finding outranks every date: read what was seen in the record first.',
  broken: (w) => `Recorded as broken on ${w.date('on')}.`,
  lost: (w) => `Recorded as lost on ${w.date('on')}.`,
  'never-measured': (w) => `Nothing to judge it by: no reading of the ${w.measure}.`,
  'readings-too-old': (w) =>
    `The last reading of the ${w.measure} is of ${w.date('date')}, too old to rely on.`,
  'no-reading-near-cast': (w) =>
    `No reading of the ${w.measure} near the cast, so the size at the cast is a guess.`,
  'slip-unanswered': (w) => `A doubtful reading of the ${w.measure} has not been answered.`,
  'growth-stopped': (w) => `The ${w.measure} did not grow where growth was expected.`,
  'growth-sprang': (w) => `The last ${w.measure} is much larger than expected.`,
  'no-rule': () => 'No fit rule for this family, so no date: the usual review.',
  'adjustment-due': (w) => `${w.adjust} is due; the device goes on.`,
  'part-due': () => 'One part must be made now to be there when it is used up; the rest goes on.',
  'judged-outgrown': (w) => `Judged outgrown on ${w.date('on')}.`,
  'judged-tight': (w) => `Judged tight on ${w.date('on')}.`,
  'beyond-use': (w) => `Probably beyond use since about ${w.date('since')}.`,
  'cast-late': () => 'The day to cast by has passed; more risk than the clinic accepts.',
  'cast-due': () => 'The room runs out about as fast as a new one can be made.',
  'usual-life-over': () => 'Worn for about as long as such a device lasts.',
  'not-funded-yet': (w) => `The next one is funded from ${w.date('from')}: a look before then.`,
  'review-due': (w) =>
    w.first
      ? 'The first look after the fitting: nobody is on record as having seen the child since.'
      : 'The usual review.',
  'wear-review': () => 'Growth does not decide here: the usual review of wear, straps and skin.',
  'never-fitted': (w) =>
    `Cast on ${w.date('on')} and not recorded as fitted: find it, and see whether it still fits.`,
  replaced: (w) => `A newer one has been worn since ${w.date('on')}: record the end of this one.`,
  'readings-say-less': (w) =>
    `The readings as they stand leave next to no room at the ${w.measure}, though the growth expected or a reviewer says otherwise.`,
  'fit-changed': (w) =>
    `A note of ${w.date('on')} speaks of a fit that is no longer right, or of surgery, toxin, tone, contracture or a changed shape: see whether it still fits before anything is cast.`,
  'hip-angle-off': (w) => `The hip angle of ${w.date('on')} lies outside what the device was set to.`,
  'amount-unknown': (w) =>
    `Adjusted on ${w.date('on')}, and nobody noted how much room that made: look, and measure the room.`,
  noted: (w) => `Something was found or told on ${w.date('on')} that nobody has looked at since.`,
  'being-made-late': ({ date, percent }) =>
    `The next one is being made, fitting about ${date('expected')}: late, ${percent === null ? 'and nothing is known of the worn one' : `the worn one is outgrown by then with a chance of ${percent} %`}.`,
  'being-made': (w) => `The next one is being made; fitting about ${w.date('expected')}.`,
  'fits-for-now': () => 'It is expected to fit for now.',
  'not-in-use': () => 'Not in use.',
  'not-planned': () => 'Something in the record cannot be right, so no date can be worked out: measure.',
};

function measureText(numbers: Reason['numbers']): string {
  const measure = numbers.measure as MeasureId | undefined;
  if (!measure || !(measure in measures)) return 'size';
  const side = numbers.side === 'left' || numbers.side === 'right' ? numbers.side : 'none';
  return plainSeries({ measure, side });
}

/** 'Moving the side bar for left knee joint height by 12 mm (2 holes)'. */
function adjustText(step: DeviceDecision['adjust']): string {
  if (!step) return 'An adjustment';
  const { what, measure, side, mm, steps } = step;
  const how = what in adjusting ? adjusting[what as AdjustmentKind] : 'an adjustment';
  const holes = steps ? ` (${counted(steps, 'hole')})` : '';
  const text = `${how} for ${plainSeries({ measure, side })} by ${Math.round(mm)} mm${holes}`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}
