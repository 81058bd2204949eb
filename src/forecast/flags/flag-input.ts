import type { ChildRecord } from '../../devices/caseload.js';
import type { ChildPosterior } from '../../growth/contract.js';
import type { IsoDate } from '../../measurements/dates.js';
import type { Series } from '../../measurements/measure.js';
import type { Flag } from '../contract.js';
import type { DevicePlan } from '../device-plan.js';
import type { DeviceAnswer } from '../forecast-device.js';

/** What a flag may look at. Readings the growth model holds for gross errors are left out of `record.measurements`. */
export interface FlagInput {
  readonly record: ChildRecord;
  readonly today: IsoDate;
  readonly posterior: ChildPosterior | null;
  readonly plans: readonly DevicePlan[];
  readonly answers: ReadonlyMap<string, DeviceAnswer>;
}

export function flag(
  input: FlagInput,
  id: string,
  severity: Flag['severity'],
  text: Pick<Flag, 'title' | 'caution' | 'askWhom'>,
  seen: string,
  about: { readonly series?: Series; readonly deviceId?: string } = {},
): Flag {
  return {
    id,
    childId: input.record.child.id,
    severity,
    seen,
    series: about.series ?? null,
    deviceId: about.deviceId ?? null,
    ...text,
  };
}
