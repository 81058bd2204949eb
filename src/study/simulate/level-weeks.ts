import type { TurnaroundEstimate } from '../../recall/contract.js';
import { weekStart } from '../../recall/decide/calendar.js';
import { castCosts } from '../../recall/level/cast-costs.js';
import type { Capacity, PlanRequest } from '../../recall/level/contract.js';
import { levelPlan } from '../../recall/level/level-plan.js';
import { addDaysIso, type DayNumber, dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import type { World } from './contract.js';

const PLANNED_WEEKS = 26;
/** A family is rung so many days before its week (common practice, no source). */
const TOLD_AHEAD_DAYS = 28;

export interface Wanted {
  readonly id: string;
  readonly insensateSkin: boolean;
  readonly castBy: IsoDate | null;
  readonly forecast: {
    readonly dates: readonly string[];
    readonly probabilityOutgrown: readonly number[];
  } | null;
  readonly nextVisit: DayNumber;
}

/** The levelled plan of a simulated clinic: the day of each child's next visit, for those inside the planned weeks. */
export async function levelWeeks(
  wanted: readonly Wanted[],
  today: DayNumber,
  turnaround: TurnaroundEstimate,
  world: World,
  before: ReadonlyMap<string, DayNumber>,
): Promise<Map<string, DayNumber>> {
  const first = weekStart(isoDate(today));
  const weeks = Array.from({ length: PLANNED_WEEKS }, (_, w) => addDaysIso(first, 7 * w));
  const end = addDaysIso(first, 7 * PLANNED_WEEKS);
  const capacity: Capacity = {
    weeks,
    schoolHoliday: weeks.map(() => false),
    sessions: weeks.map((_, week) => ({
      week,
      weekday: null,
      clinicianId: 'clinic',
      slots: world.slotsPerWeek,
    })),
    workshop: [{ families: [], jobsByWeek: weeks.map(() => world.jobsPerWeek) }],
  };
  const requests = wanted.flatMap(
    (x) => requestOf(x, [...weeks, end], today, turnaround, before.get(x.id)) ?? [],
  );
  if (requests.length === 0) return new Map();
  const plan = await levelPlan(requests, capacity);
  const offset = today - dayNumber(first);
  return new Map(
    plan.visits.flatMap((v) => (v.week ? [[v.requestId, dayNumber(v.week) + offset] as const] : [])),
  );
}

/** The visit wanted next, for a cast or the usual review; null where it is due after the planned weeks. */
function requestOf(
  x: Wanted,
  weeks: readonly IsoDate[],
  today: DayNumber,
  turnaround: TurnaroundEstimate,
  previous: DayNumber | undefined,
): PlanRequest | null {
  const visit = isoDate(x.nextVisit);
  // The usual review comes first where it is nearer than the day to cast by.
  const cast = x.castBy !== null && x.castBy <= visit ? x.castBy : null;
  const due = cast ?? visit;
  if (due > weeks[PLANNED_WEEKS]) return null;
  const flat = new Array<number>(PLANNED_WEEKS + 1).fill(0);
  const costs =
    cast !== null && x.forecast
      ? castCosts({ forecast: x.forecast }, turnaround, weeks, 0)
      : { outgrownDays: flat, wastedDays: flat };
  return {
    ...costs,
    id: x.id,
    childIds: [x.id],
    deviceIds: [],
    action: cast ? 'cast' : 'review',
    slots: 1,
    jobs: cast ? [{ family: 'solid-afo', count: 1 }] : [],
    worthIt: addDaysIso(due, -28),
    latestSafe: due,
    insensateSkin: x.insensateSkin,
    clinicianIds: [],
    transportDays: [],
    prefersHolidays: false,
    togetherKeys: [],
    bookedWeek: null,
    previousWeek: previous === undefined ? null : weekStart(isoDate(previous)),
    previousWeekTold: previous !== undefined && previous < today + TOLD_AHEAD_DAYS,
    notInWeeks: [],
    parts: [],
  };
}
