import { levelledClinicList } from '../../clinic/clinic-list.js';
import { type EarlierVisit, earlierVisit } from '../../recall/carry-over.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { ChildInCare } from './child-in-care.js';
import type { World } from './contract.js';
import type { Answered, ForecastClinic } from './forecast-review.js';

/** A family is rung so many days before its week (common practice, no source). */
const TOLD_AHEAD_DAYS = 28;

export interface Wanted {
  readonly child: ChildInCare;
  readonly answered: Answered | null;
  /** The week of the plan before, and what came of it. */
  readonly planned: EarlierVisit | null;
}

/** The product's levelled list of a simulated clinic: the entry of each child with its week. */
export async function levelWeeks(
  wanted: readonly Wanted[],
  today: IsoDate,
  { rules, settings, jobs }: ForecastClinic,
  { slotsPerWeek, jobsPerWeek }: World,
): Promise<Map<string, EarlierVisit>> {
  const { list } = await levelledClinicList({
    records: wanted.map(({ child }) => child.record()),
    assessments: wanted.flatMap(({ answered }) => answered?.assessment ?? []),
    ...{ today, rules, settings, jobs },
    clinic: {
      clinicians: [{ id: 'clinic', slotsPerWeek }],
      workshop: [{ jobsPerWeek }],
    },
    earlier: wanted.flatMap(({ planned }) => planned ?? []),
    failed: (error) => {
      throw error;
    },
  });
  const told = addDaysIso(today, TOLD_AHEAD_DAYS);
  return new Map(
    [...list.entries, ...list.notDue].map((entry) => {
      const state = entry.plannedWeek && entry.plannedWeek < told ? 'called' : 'to-call';
      return [entry.childId, earlierVisit(entry, { state, appointment: null })];
    }),
  );
}
