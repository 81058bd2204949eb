import type { IsoDate } from '../../records/dates.js';
import type { Action, DeviceDecision, Reason } from '../contract.js';
import type { DeviceFacts } from './device-facts.js';

export type Choice = Pick<DeviceDecision, 'action' | 'reason' | 'dueBy'>;
/** What a device asks for by one rule; null where the rule has nothing to say. */
export type Rule = (facts: DeviceFacts) => Choice | null;

export const choose = (
  action: Action,
  dueBy: IsoDate | null,
  code: Reason['code'],
  numbers: Reason['numbers'] = {},
): Choice => ({ action, dueBy, reason: { code, numbers } });
