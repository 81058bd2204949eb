import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { reviewIntervalDays } from '../../rules/by-age.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { harmADay } from './accepted-chance.js';
import { addMonthsIso } from './calendar.js';
import { lastSeen } from './last-seen.js';
import type { RecallSettings } from './recall-settings.js';

/** Where a clinic's own family says nothing (common practice, no source). */
const USUAL_DAYS = 183;
const INSENSATE_DAYS = 91;

/** Days between reviews of a device, by age and skin. */
export function reviewDays(rule: FamilyRule | null, record: ChildRecord, today: IsoDate): number {
  const { birthDate, insensateSkin } = record.child;
  if (rule) return reviewIntervalDays(rule, decimalAgeYears(birthDate, today), insensateSkin);
  return insensateSkin ? INSENSATE_DAYS : USUAL_DAYS;
}

/**
 * The day the next review is due by; a forecast never replaces one. Wear alone is looked at less often, but neither
 * insensate skin nor a device whose every day matters more: a curve may go on after growth has ended.
 */
export function reviewBy(
  rule: FamilyRule | null,
  record: ChildRecord,
  today: IsoDate,
  wearOnly: boolean,
  settings: RecallSettings,
): IsoDate {
  const seen = lastSeen(record, today) ?? today;
  const { palliative, insensateSkin } = record.child;
  const seldom = palliative ? !insensateSkin : harmADay(rule, insensateSkin, settings) <= 1;
  if (wearOnly && seldom) return addMonthsIso(seen, settings.wearReviewMonths);
  return addDaysIso(seen, reviewDays(rule, record, today));
}
