import { format, parseISO } from 'date-fns';
import { capital } from '../../forecast/words.js';
import type { IsoDate } from '../../records/dates.js';

/** Names a parent would use. */
const plainNames: Readonly<Record<string, string>> = {
  'foot-orthosis': 'foot support',
  'supramalleolar-orthosis': 'ankle brace',
  'solid-afo': 'lower leg brace',
  'afo-with-straps': 'lower leg brace',
  'articulated-afo': 'lower leg brace',
  'ground-reaction-afo': 'lower leg brace',
  kafo: 'long leg brace',
  hkafo: 'hip and leg brace',
  'hip-abduction-orthosis': 'hip brace',
  'spinal-orthosis': 'back brace',
  'cranial-orthosis': 'helmet',
};

export interface NamedDevice {
  readonly family: string;
  readonly side: 'left' | 'right' | 'both' | 'none';
}

/** plainDate('2027-02-12') = '12 February 2027'. */
export const plainDate = (date: IsoDate): string => format(parseISO(date), 'd MMMM yyyy');

/** A date no more exact than a forecast is: 'early', 'mid' or 'late' and the month. */
export function roughDate(date: IsoDate): string {
  const day = Number(date.slice(8));
  const part = day <= 10 ? 'early' : day <= 20 ? 'mid' : 'late';
  return `${part} ${format(parseISO(date), 'MMMM yyyy')}`;
}

/** 'the left lower leg brace and the right lower leg brace' -> 'both lower leg braces'. */
export function plainDevices(devices: readonly NamedDevice[]): string {
  const groups = new Map<string, Set<string>>();
  for (const d of devices) {
    const name = plainNames[d.family] ?? 'brace';
    groups.set(name, (groups.get(name) ?? new Set()).add(d.side));
  }
  const parts = [...groups].map(([name, sides]) => {
    if (sides.has('both') || (sides.has('left') && sides.has('right'))) {
      return sides.has('both') ? `the ${name}` : `both ${name}s`;
    }
    const side = [...sides][0];
    return side === 'none' ? `the ${name}` : `the ${side} ${name}`;
  });
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

const isPlural = (text: string) => text.startsWith('both ') || text.includes(' and ');

/** One sentence for a visit to cast, in a parent's words: no jargon, no score, no diagnosis, no promised appointment. */
export function castReason(input: {
  readonly devices: readonly NamedDevice[];
  readonly outgrownFrom: IsoDate | null;
  readonly outgrownTo: IsoDate | null;
  readonly latestSafe: IsoDate | null;
  readonly overdue: boolean;
  readonly alreadyOutgrown: boolean;
  readonly today: IsoDate;
}): string {
  const names = plainDevices(input.devices);
  const plural = isPlural(names);
  const next = plural ? 'the next ones' : 'the next one';
  if (input.alreadyOutgrown) {
    return `${capital(names)} ${plural ? 'have' : 'has'} probably become too small already, so we would like to see you as soon as we can and to hear today of any red marks, rubbing or pain.`;
  }
  const from = input.outgrownFrom && input.outgrownFrom > input.today ? roughDate(input.outgrownFrom) : 'now';
  const to = input.outgrownTo ? roughDate(input.outgrownTo) : null;
  const window =
    to === null ? `from ${from} on` : from === to ? `around ${from}` : `between ${from} and ${to}`;
  const when =
    input.overdue || input.latestSafe === null
      ? `so we would like to see you as soon as we can, because making ${next} takes time`
      : `so we would like to see you by ${plainDate(input.latestSafe)} to have ${next} ready in time`;
  return `We expect your child to grow out of ${names} ${window}, ${when}; please ring us sooner if ${plural ? 'they rub, mark or hurt' : 'it rubs, marks or hurts'}.`;
}

/** Added where knowing the size better may move the cast. */
export const measureFirstReason = (where: 'home' | 'clinic'): string =>
  where === 'home'
    ? 'If the foot can be measured at home or at school before that, please tell us how long it is: it may change the date.'
    : 'We will measure before we decide on the cast: it may change the date.';

export const wearReason = (devices: readonly NamedDevice[], on: IsoDate): string =>
  `${capital(plainDevices(devices))} ${isPlural(plainDevices(devices)) ? 'are' : 'is'} due for a check of wear and fit on ${plainDate(on)}; growth is not what decides here, so please bring the shoes and tell us what has changed.`;

export const reviewReason = (due: IsoDate, lastSeen: IsoDate | null): string =>
  lastSeen === null
    ? 'We have no measurements of your child yet, so we would like to measure and check the fit.'
    : `We last saw your child on ${plainDate(lastSeen)} and the usual check was due on ${plainDate(due)}, so we would like to measure and look at the fit.`;

export const cannotForecastReason = (devices: readonly NamedDevice[], lastSeen: IsoDate | null): string =>
  lastSeen === null
    ? `We have no measurements to tell how long ${plainDevices(devices)} will fit, so we would like to see your child and measure.`
    : `We last saw your child on ${plainDate(lastSeen)}, which is too long ago or too little to tell how long ${plainDevices(devices)} will fit, so we would like to measure again.`;

export const urgentReason = (): string =>
  'Something in the record should be looked at before anything else is planned, so a clinician would like to speak with you soon; if there is pain, swelling, a wound or your child seems unwell, please do not wait for us to ring.';

export const notSoonReason = (devices: readonly NamedDevice[]): string =>
  `We do not expect your child to grow out of ${plainDevices(devices)} soon; please keep the usual checks and ring us if something rubs, marks or hurts.`;
