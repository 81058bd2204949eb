import type { ClinicWeekInput } from '../recall/level/clinic-week.js';
import type { ClinicSettings } from '../store/contract.js';

/** The clinic's usual week as levelling reads it: its clinicians, or the slots of the whole clinic where none are named. */
export const clinicWeekOf = (settings: ClinicSettings): ClinicWeekInput => ({
  clinicians:
    settings.clinicians.length > 0
      ? settings.clinicians.map(({ name, slotsPerWeek, slotsByWeekday, away }) => ({
          id: name,
          slotsPerWeek,
          slotsByWeekday: [...slotsByWeekday],
          away: [...away],
        }))
      : [{ id: 'clinic', slotsPerWeek: settings.castingSlotsPerWeek }],
  workshop: settings.workshop.map(({ families, jobsPerWeek }) => ({ families: [...families], jobsPerWeek })),
  schoolHolidays: [...settings.holidays],
  clinicClosures: settings.closures.map((day) => ({ from: day, to: day })),
  workshopClosures: [...settings.workshopClosures],
});
