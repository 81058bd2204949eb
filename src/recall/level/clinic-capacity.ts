import { z } from 'zod';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { isoDateText } from '../../records/records.js';
import { weekStart } from '../decide/calendar.js';
import type { Capacity, CastSession } from './contract.js';

const span = z.object({ from: isoDateText, to: isoDateText, name: z.string().max(80).default('') });

/** A clinic's usual week and what is different in some. Defaults: common practice, no source. */
export const clinicWeek = z.object({
  clinicians: z
    .array(
      z.object({
        id: z.string().min(1).max(80),
        /** Casting slots a week, on any day ... */
        slotsPerWeek: z.number().int().min(0).max(1000).default(0),
        /** ... or on named weekdays, 1 Monday .. 7 Sunday. */
        slotsByWeekday: z
          .array(
            z.object({ weekday: z.number().int().min(1).max(7), slots: z.number().int().min(0).max(100) }),
          )
          .default([]),
        away: z.array(span).default([]),
      }),
    )
    .default([{ id: 'clinic', slotsPerWeek: 10, slotsByWeekday: [], away: [] }]),
  workshop: z
    .array(
      z.object({
        /** Empty: every family together. */
        families: z.array(z.string()).default([]),
        jobsPerWeek: z.number().int().min(0).max(5000),
      }),
    )
    .default([{ families: [], jobsPerWeek: 15 }]),
  schoolHolidays: z.array(span).default([]),
  clinicClosures: z.array(span).default([]),
  workshopClosures: z.array(span).default([]),
});
export type ClinicWeekInput = z.input<typeof clinicWeek>;

const WORKING_DAYS = [0, 1, 2, 3, 4];
/** Monday to Friday of a week, given its Monday. */
export const workingDays = (monday: IsoDate): IsoDate[] => WORKING_DAYS.map((d) => addDaysIso(monday, d));

/** Is a day in one of the spans, both ends included? */
export const within = (spans: readonly { from: IsoDate; to: IsoDate }[], day: IsoDate): boolean =>
  spans.some((s) => s.from <= day && day <= s.to);

/** Where there is only one clinician, naming it says nothing. */
export const severalClinicians = ({ sessions }: Capacity): boolean =>
  new Set(sessions.map((s) => s.clinicianId)).size > 1;

/** Capacity week by week from the week `from` falls in; closed and absent days take their share of a week away, rounded. */
export function clinicCapacity(input: ClinicWeekInput, from: IsoDate, weekCount: number): Capacity {
  const clinic = clinicWeek.parse(input);
  const first = weekStart(from);
  const weeks = Array.from({ length: weekCount }, (_, w) => addDaysIso(first, 7 * w));
  const shareOf = (week: IsoDate, holds: (date: IsoDate) => boolean) =>
    workingDays(week).filter(holds).length / WORKING_DAYS.length;
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
    schoolHoliday: weeks.map((w) => shareOf(w, (date) => within(clinic.schoolHolidays, date)) > 0.5),
    sessions,
    workshop: clinic.workshop.map((l) => ({
      families: l.families,
      jobsByWeek: weeks.map((w) => Math.round(l.jobsPerWeek * openShare(w, clinic.workshopClosures))),
    })),
  };
}
