import type { FamilyId } from '../records/device.js';

/** Calendar days from cast or scan to fitting, before a clinic has a history of its own. */
export interface DefaultTurnaround {
  readonly medianDays: number;
  /** SD of the natural logarithm of the days: 0.25 puts four in five between 0.73 and 1.38 of the median. */
  readonly logSd: number;
}

/** Common practice, no source: a clinic's own jobs overrule every one of these within a few dozen jobs. */
const byFamily: Readonly<Record<string, number>> = {
  'foot-orthosis': 14,
  'supramalleolar-orthosis': 21,
  'solid-afo': 21,
  'afo-with-straps': 21,
  'articulated-afo': 21,
  'ground-reaction-afo': 21,
  kafo: 42,
  hkafo: 42,
  'hip-abduction-orthosis': 21,
  'spinal-orthosis': 14,
  'cranial-orthosis': 10,
};
const OTHER_FAMILY_DAYS = 21;
const LOG_SD = 0.25;

/** defaultTurnaround('kafo') = { medianDays: 42, logSd: 0.25 }; a family the clinic added itself gets 21 days. */
export function defaultTurnaround(family: FamilyId): DefaultTurnaround {
  return { medianDays: byFamily[family] ?? OTHER_FAMILY_DAYS, logSd: LOG_SD };
}
