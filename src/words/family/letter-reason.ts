import type { Visit } from '../../recall/contract.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { FamilyWords } from './family-words.js';
import { urgentReason, wornDevice } from './worn-device.js';

/**
 * Why a family is written to, and where it must be seen now what to do until then. Only the English words carry dates; no
 * letter calls 'soon' what is probably so already.
 */
export function letterReason(
  words: FamilyWords,
  { action, reason, devices }: Pick<Visit, 'action' | 'reason' | 'devices'>,
  rules: FitRules,
): string {
  if (words.language === 'en') return reason.text ?? words.letterWhy[action] ?? '';
  if (action === 'see-now' || action === 'repair') {
    const why = urgentReason(String(reason.numbers?.flag ?? ''));
    const own = devices.filter((d) => d.action === action);
    return own.flatMap((d) => words.wanted(action, wornDevice(d, rules), why) ?? []).join(' ');
  }
  const small = devices.filter((d) => d.beyondUseSince !== null);
  if ((action === 'cast' || action === 'check') && small.length > 0)
    return small.map((d) => words.mayBeSmall(words.device(wornDevice(d, rules)))).join(' ');
  return words.letterWhy[action] ?? '';
}
