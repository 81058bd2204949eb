import type { ChildPosterior } from '../../growth/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Series } from '../../records/measure.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { Flag } from '../contract.js';
import type { DevicePlan } from '../device/device-plan.js';
import type { DeviceAnswer } from '../device/device-question.js';
import { capital } from '../words.js';
import type { Finding } from './finding.js';

/** What a flag may look at. Readings the growth model holds for gross errors are left out of `record.measurements`. */
export interface FlagInput {
  readonly record: ChildRecord;
  readonly today: IsoDate;
  readonly posterior: ChildPosterior | null;
  readonly plans: readonly DevicePlan[];
  readonly answers: ReadonlyMap<string, DeviceAnswer>;
  readonly findings: readonly Finding[];
  readonly rules: FitRules;
}

export function flag(
  input: Pick<FlagInput, 'record'>,
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
    seen: capital(seen),
    series: about.series ?? null,
    deviceId: about.deviceId ?? null,
    ...text,
  };
}
