import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { reviewIntervalDays } from '../../rules/by-age.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
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

/** The day the next review is due by; a forecast never replaces one. Wear alone is looked at less often, insensate skin never. */
export function reviewBy(
  rule: FamilyRule | null,
  record: ChildRecord,
  today: IsoDate,
  wearOnly: boolean,
  settings: RecallSettings,
): IsoDate {
  const seen = lastSeen(record, today) ?? today;
  if (wearOnly && !record.child.insensateSkin) return addMonthsIso(seen, settings.wearReviewMonths);
  return addDaysIso(seen, reviewDays(rule, record, today));
}
