import type { ClinicWeekInput } from '../recall/levelling/clinic-capacity.js';
import type { ClinicSettings } from '../store/contract.js';

/** The clinic's usual week as levelling reads it. Nobody enters a limit of the workshop, so none is assumed. */
export const clinicWeekOf = (
  settings: Pick<ClinicSettings, 'castingSlotsPerWeek' | 'holidays' | 'closures'>,
): ClinicWeekInput => ({
  clinicians: [{ id: 'clinic', slotsPerWeek: settings.castingSlotsPerWeek }],
  workshop: [],
  schoolHolidays: [...settings.holidays],
  clinicClosures: settings.closures.map((day) => ({ from: day, to: day })),
});
