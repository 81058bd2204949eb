import { z } from 'zod';
import { addDaysIso, dayNumber, type IsoDate } from '../../records/dates.js';
import { isoDateText } from '../../records/records.js';
import { weekStart } from '../decide/calendar.js';

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

/** Is a day in one of the spans, both ends included? */
export const within = (spans: readonly { from: IsoDate; to: IsoDate }[], day: IsoDate): boolean =>
  spans.some((s) => s.from <= day && day <= s.to);

const [FRIDAY, SUNDAY] = [5, 7];

/** 1 Monday .. 7 Sunday. */
export const weekdayOf = (day: IsoDate): number => dayNumber(day) - dayNumber(weekStart(day)) + 1;

/** Can this clinician (empty: whoever) see nobody on this day? */
export type IsShut = (day: IsoDate, clinician: string) => boolean;

/** The days a clinic works: its telephone, its weeks and its calendar go by them. */
export interface ClinicDays {
  /** 1 Monday .. 7 Sunday, ascending. */
  readonly weekdays: readonly number[];
  /** Those days of a week, given its Monday. */
  readonly ofWeek: (monday: IsoDate) => IsoDate[];
  /** Is somebody at the clinic's telephone? */
  readonly isOpen: (day: IsoDate) => boolean;
  readonly isShut: IsShut;
  /** The last day on which somebody is there, that day or before it; the day itself where the clinic is closed for long. */
  readonly lastOpen: (day: IsoDate) => IsoDate;
}

/** So far back an open day is looked for. */
const LOOK_BACK_DAYS = 31;

/**
 * Days of casting and Monday to Friday; a clinic that casts on Sundays rests on Friday unless it casts then too (common
 * practice, no source). Closed days are none of them, and a clinician's absences shut that one out.
 */
export function clinicDays(input: ClinicWeekInput): ClinicDays {
  const { clinicians, clinicClosures } = clinicWeek.parse(input);
  const casts = (weekday: number) =>
    clinicians.some((c) => c.slotsByWeekday.some((d) => d.weekday === weekday && d.slots > 0));
  const isOffice = (weekday: number) => weekday <= FRIDAY && !(weekday === FRIDAY && casts(SUNDAY));
  const weekdays = [1, 2, 3, 4, 5, 6, 7].filter((d) => casts(d) || isOffice(d));
  const isOpen = (day: IsoDate) => weekdays.includes(weekdayOf(day)) && !within(clinicClosures, day);
  return {
    weekdays,
    ofWeek: (monday) => weekdays.map((d) => addDaysIso(monday, d - 1)),
    isOpen,
    lastOpen: (day) =>
      Array.from({ length: LOOK_BACK_DAYS }, (_, n) => addDaysIso(day, -n)).find(isOpen) ?? day,
    isShut: (day, clinician) =>
      within(clinicClosures, day) || within(clinicians.find((c) => c.id === clinician)?.away ?? [], day),
  };
}
