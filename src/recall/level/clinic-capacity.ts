import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { weekStart } from '../decide/calendar.js';
import { type ClinicWeekInput, clinicDays, clinicWeek, within } from './clinic-week.js';
import type { Capacity, CastSession } from './contract.js';

/** Where there is only one clinician, naming it says nothing. */
export const severalClinicians = ({ sessions }: Capacity): boolean =>
  new Set(sessions.map((s) => s.clinicianId)).size > 1;

/** Capacity week by week from the week `from` falls in; closed and absent days take their share of a week away, rounded. */
export function clinicCapacity(input: ClinicWeekInput, from: IsoDate, weekCount: number): Capacity {
  const clinic = clinicWeek.parse(input);
  const days = clinicDays(input);
  const first = weekStart(from);
  const weeks = Array.from({ length: weekCount }, (_, w) => addDaysIso(first, 7 * w));
  const shareOf = (week: IsoDate, holds: (date: IsoDate) => boolean) =>
    days.ofWeek(week).filter(holds).length / days.weekdays.length;
  // Of the week that has begun only whole days ahead count: today's places are for those who must be seen today.
  const openShare = (week: IsoDate, closed: readonly { from: string; to: string }[]) =>
    shareOf(week, (date) => date > from && !within(closed, date));
  const sessions: CastSession[] = [];
  weeks.forEach((monday, week) => {
    for (const c of clinic.clinicians) {
      const closed = [...clinic.clinicClosures, ...c.away];
      const slots = Math.round(c.slotsPerWeek * openShare(monday, closed));
      if (slots > 0) sessions.push({ week, weekday: null, clinicianId: c.id, slots });
      for (const day of c.slotsByWeekday) {
        const date = addDaysIso(monday, day.weekday - 1);
        if (day.slots > 0 && date > from && !within(closed, date)) {
          sessions.push({ week, weekday: day.weekday, clinicianId: c.id, slots: day.slots });
        }
      }
    }
  });
  return {
    weeks,
    lastDay: days.weekdays[days.weekdays.length - 1] - 1,
    schoolHoliday: weeks.map((w) => shareOf(w, (date) => within(clinic.schoolHolidays, date)) > 0.5),
    sessions,
    workshop: clinic.workshop.map((l) => ({
      families: l.families,
      jobsByWeek: weeks.map((w) => Math.round(l.jobsPerWeek * openShare(w, clinic.workshopClosures))),
    })),
  };
}
