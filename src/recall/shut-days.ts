import type { IsoDate } from '../measurements/dates.js';
import type { IsShut } from './carry-over.js';
import { type ClinicWeekInput, clinicWeek } from './levelling/clinic-capacity.js';

/** On which days a clinician, or nobody at all, can be seen: closed days and absences. */
export function shutDays(input: ClinicWeekInput): IsShut {
  const { clinicians, clinicClosures } = clinicWeek.parse(input);
  const within = (spans: readonly { from: string; to: string }[], day: IsoDate) =>
    spans.some((s) => s.from <= day && day <= s.to);
  return (day, clinician) =>
    within(clinicClosures, day) || within(clinicians.find((c) => c.id === clinician)?.away ?? [], day);
}
