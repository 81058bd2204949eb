import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { type ClinicWeekInput, clinicDays, clinicWeek, weekdayOf, within } from './clinic-week.js';

/** Places of one day, and how many of them are booked. */
export interface DayPlaces {
  readonly day: IsoDate;
  readonly places: number;
  readonly booked: number;
  readonly free: number;
}

/** So far ahead a clinic day is looked for. */
const LOOK_DAYS = 31;

/** Casting places of a day, closures and absences taken off; a clinician without named weekdays spreads the week evenly. */
export function placesOn(input: ClinicWeekInput, day: IsoDate): number {
  const { clinicians, clinicClosures } = clinicWeek.parse(input);
  if (within(clinicClosures, day)) return 0;
  const { weekdays } = clinicDays(input);
  const weekday = weekdayOf(day);
  return clinicians.reduce((sum, c) => {
    if (within(c.away, day)) return sum;
    const named = c.slotsByWeekday.filter((d) => d.weekday === weekday).reduce((n, d) => n + d.slots, 0);
    return sum + named + (weekdays.includes(weekday) ? Math.ceil(c.slotsPerWeek / weekdays.length) : 0);
  }, 0);
}

/** Today and the next working day: where whoever must be seen now is put, outside all levelling. */
export function nextPlaces(input: ClinicWeekInput, booked: readonly IsoDate[], today: IsoDate): DayPlaces[] {
  const days: DayPlaces[] = [];
  for (let d = 0; d < LOOK_DAYS && days.length < 2; d++) {
    const day = addDaysIso(today, d);
    const places = placesOn(input, day);
    if (places === 0) continue;
    const taken = booked.filter((b) => b === day).length;
    days.push({ day, places, booked: taken, free: Math.max(0, places - taken) });
  }
  // Only today and the working day after it: a later day is no answer to 'now'.
  return days.filter(({ day }) => day <= addDaysIso(today, NEXT_DAYS));
}
/** The next working day after a Friday is three days on. */
const NEXT_DAYS = 3;
