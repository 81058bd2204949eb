import { clinicCapacity } from '../recall/level/clinic-capacity.js';
import type { IsoDate } from '../records/dates.js';
import type { ClinicSettings } from '../store/contract.js';
import { clinicWeekOf } from './clinic-week-of.js';

/** Casting slots of each week (its Monday) from the week of `from` on, closed days and absences taken off. */
export function slotsByWeek(settings: ClinicSettings, from: IsoDate, weeks: number): Map<IsoDate, number> {
  const capacity = clinicCapacity(clinicWeekOf(settings), from, weeks);
  const slots = new Map(capacity.weeks.map((week) => [week, 0]));
  for (const s of capacity.sessions) {
    const week = capacity.weeks[s.week];
    slots.set(week, slots.get(week)! + s.slots);
  }
  return slots;
}
