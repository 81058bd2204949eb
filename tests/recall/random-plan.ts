import type { Capacity, PlanRequest } from '../../src/recall/level/contract.js';
import { addDaysIso, type IsoDate } from '../../src/records/dates.js';
import { randomStream } from '../../src/statistics/random-stream.js';

export interface RandomPlanOptions {
  readonly requests: number;
  readonly weeks: number;
  readonly clinicians?: number;
  readonly limits?: number;
  /** Casting slots a week in all, as a share of the mean weekly demand. */
  readonly slotShare?: number;
  readonly jobShare?: number;
  /** Share of requests bound to one clinician, and to some transport days. */
  readonly bound?: number;
}

const MONDAY: IsoDate = '2026-06-01';
const families = ['solid-afo', 'foot-orthosis', 'kafo', 'spinal-orthosis', 'articulated-afo', 'hkafo'];

/** A caseload due over the weeks and a clinic just too small or large enough for it: invented numbers. */
export function randomPlan(
  seed: number,
  o: RandomPlanOptions,
): { requests: PlanRequest[]; capacity: Capacity } {
  const random = randomStream(seed);
  const between = (a: number, b: number) => a + (b - a) * random.uniform();
  const pick = <T>(list: readonly T[]) => list[Math.floor(random.uniform() * list.length)];
  const clinicians = Array.from({ length: o.clinicians ?? 1 }, (_, k) => `clinician-${k}`);
  const weeks = Array.from({ length: o.weeks }, (_, w) => addDaysIso(MONDAY, 7 * w));
  const perWeek = o.requests / o.weeks;
  const perClinician = (perWeek * (o.slotShare ?? 1.05)) / clinicians.length;
  const groups = Array.from({ length: o.limits ?? 0 }, (_, g) =>
    families.filter((_, f) => f % (o.limits ?? 1) === g),
  );
  const capacity: Capacity = {
    weeks,
    lastDay: 4,
    schoolHoliday: weeks.map((_, w) => w % 9 === 3),
    sessions: weeks.flatMap((_, week) =>
      clinicians.map((clinicianId, k) => ({
        week,
        weekday: clinicians.length > 1 && k % 2 ? 1 + (k % 5) : null,
        clinicianId,
        // A closed week now and then.
        slots: week % 11 === 7 ? 0 : Math.max(0, Math.round(between(0.8, 1.2) * perClinician)),
      })),
    ),
    workshop: groups.map((g) => ({
      families: g,
      jobsByWeek: weeks.map(() => Math.max(1, Math.round((perWeek * (o.jobShare ?? 1.4)) / groups.length))),
    })),
  };
  const requests = Array.from({ length: o.requests }, (_, i): PlanRequest => {
    const due = between(-10, o.weeks * 7 + 20);
    const spread = between(20, 120);
    const bound = random.uniform() < (o.bound ?? 0);
    const latestSafe = addDaysIso(MONDAY, due);
    const at = (w: number) => 7 * w + 2;
    return {
      id: `r${String(i).padStart(6, '0')}`,
      childIds: [`c${i}`],
      deviceIds: [`d${i}`],
      action: 'cast',
      slots: 1,
      jobs: [{ family: pick(families), count: random.uniform() < 0.3 ? 2 : 1 }],
      worthIt: addDaysIso(MONDAY, due - between(20, 60)),
      latestSafe,
      insensateSkin: random.uniform() < 0.1,
      // Straight survival curve from the latest safe date over `spread` days: area under it, days.
      outgrownDays: Array.from(
        { length: o.weeks + 1 },
        (_, w) => Math.max(0, at(w) - due + 5) ** 2 / (2 * spread),
      ),
      wastedDays: Array.from({ length: o.weeks + 1 }, (_, w) => Math.max(0, due + 60 - at(w))),
      clinicianIds: bound ? [pick(clinicians)] : [],
      transportDays: bound && random.uniform() < 0.5 ? [1, 3] : [],
      prefersHolidays: random.uniform() < 0.2,
      togetherKeys: [],
      bookedWeek: null,
      previousWeek: null,
      previousWeekTold: false,
      notInWeeks: [],
      parts: [],
    };
  });
  return { requests, capacity };
}
