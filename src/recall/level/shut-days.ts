import type { IsShut } from '../carry-over.js';
import { type ClinicWeekInput, clinicWeek, within } from './clinic-capacity.js';

/** On which days a clinician, or nobody at all, can be seen: closed days and absences. */
export function shutDays(input: ClinicWeekInput): IsShut {
  const { clinicians, clinicClosures } = clinicWeek.parse(input);
  return (day, clinician) =>
    within(clinicClosures, day) || within(clinicians.find((c) => c.id === clinician)?.away ?? [], day);
}
