import type { TurnaroundEstimate } from '../../recall/contract.js';
import { acceptedChance } from '../../recall/decide/accepted-chance.js';
import { beyondUseChance } from '../../recall/decide/beyond-use-chance.js';
import { castBy } from '../../recall/decide/cast-by.js';
import { recallSettings } from '../../recall/decide/recall-settings.js';
import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import type { WorkshopJob } from '../../records/device.js';
import { type RandomStream, randomStream } from '../../statistics/random-stream.js';
import { estimateTurnaround } from '../../turnaround/estimate-turnaround.js';
import { hash } from '../backtest/clinic-noise.js';
import type {
  ChildOutcome,
  PolicyOutcome,
  RecallPolicy,
  SimulatedChild,
  SimulationForecaster,
  SimulationLook,
  World,
} from './contract.js';
import { levelWeeks, type Wanted } from './level-weeks.js';
import { WorkshopQueue } from './workshop-queue.js';

const FAMILY = 'solid-afo';
const WEEK = 7;
/** A visit missed is made up three weeks later; a child without a usual review is seen yearly; a plan is made every four weeks. */
const REBOOK_WEEKS = 3;
const LATEST_WEEKS = 52;
const SOONEST_WEEKS = 4;
/** A child who is there is cast rather than called again within so many days (common practice, no source). */
const CAST_RATHER_THAN_COME_AGAIN_DAYS = SOONEST_WEEKS * WEEK;
const PLAN_EVERY_WEEKS = 4;
/** Days of work and curing a job needs once begun (with queueing about three weeks; common practice, no source). */
const WORK_DAYS = [11, 20] as const;

interface Life {
  readonly child: SimulatedChild;
  readonly random: RandomStream;
  readonly seenDays: DayNumber[];
  castDay: DayNumber;
  /** Size at which the device worn is outgrown. */
  limitMm: number;
  /** Being made: cast on this day, fitted on that one (null until the workshop begins it). */
  making: { castDay: DayNumber; fitDay: DayNumber | null } | null;
  nextVisit: DayNumber;
  castBy: IsoDate | null;
  forecast: Wanted['forecast'];
  daysOutgrown: number;
  thrownAwayDays: number;
  casts: number;
  visits: number;
  missed: number;
}

/** Runs a caseload week by week. A policy sees readings of the visits that were kept, and nothing of the future. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one day after another, with the state of the clinic between them
export async function simulateCaseload(
  children: readonly SimulatedChild[],
  policy: RecallPolicy,
  world: World,
  forecast: SimulationForecaster,
  look: SimulationLook,
  progress: (share: number) => void = () => {},
): Promise<PolicyOutcome> {
  const chosen = policy.kind === 'forecast' ? policy.acceptedChance : undefined;
  const settings = recallSettings.parse(chosen === undefined ? {} : { acceptedChance: chosen });
  const harmOf = (child: SimulatedChild): number => (child.insensateSkin ? settings.harmInsensate : 1);
  const start = dayNumber(world.start);
  const weeks = Math.round((world.years * 365.25) / WEEK);
  const benchRandom = randomStream(hash(`${world.seed}|benches`));
  const queue = new WorkshopQueue<Life>(
    Math.max(1, Math.ceil((world.jobsPerWeek * (WORK_DAYS[0] + WORK_DAYS[1])) / 2 / WEEK)),
    () => Math.round(WORK_DAYS[0] + (WORK_DAYS[1] - WORK_DAYS[0]) * benchRandom.uniform()),
  );
  const jobs: WorkshopJob[] = [];
  const visitsByWeek: number[] = [];
  let turnaround: TurnaroundEstimate = estimateTurnaround([], FAMILY, world.start);

  const lives = children.map((child, k): Life => {
    const random = randomStream(hash(`${world.seed}|life ${k}`));
    const castDay = start - Math.floor(random.uniform() * 180);
    return {
      child,
      random,
      // History a clinic has of a child already in its care.
      seenDays: [castDay - 365, castDay - 180, castDay],
      castDay,
      limitMm: child.trueSize(castDay) + child.allowanceMm,
      making: null,
      nextVisit: start,
      castBy: null,
      forecast: null,
      daysOutgrown: 0,
      thrownAwayDays: 0,
      casts: 0,
      visits: 0,
      missed: 0,
    };
  });

  /** Looks ahead for the device that will be worn next, as known today. */
  const lookAhead = (life: Life, today: DayNumber, roomSeenMm: number | null = null): void => {
    const castDay = life.making?.castDay ?? life.castDay;
    const device = { castDay, allowanceMm: life.child.allowanceMm, roomSeenMm };
    const chances = forecast(life.child, life.seenDays, device, today);
    life.forecast = chances;
    const chance = beyondUseChance(chances);
    life.castBy =
      chance && castBy(chance, acceptedChance(harmOf(life.child), settings), turnaround.p80Days, null);
    const latest = life.castBy === null ? Number.POSITIVE_INFINITY : dayNumber(life.castBy);
    // Nobody is called for the device after the one being made: at its fitting they look again.
    const due = life.making ? Number.POSITIVE_INFINITY : Math.max(latest, today + SOONEST_WEEKS * WEEK);
    const review = life.child.reviewEveryDays?.(today) ?? LATEST_WEEKS * WEEK;
    life.nextVisit = Math.min(due, today + Math.ceil(review / WEEK) * WEEK);
  };

  for (const life of lives) {
    if (policy.kind === 'forecast') lookAhead(life, start);
    else life.nextVisit = start + Math.floor((life.random.uniform() * policy.months * 30.44) / WEEK) * WEEK;
  }

  const visit = (life: Life, today: DayNumber): void => {
    if (life.random.uniform() < world.missedShare) {
      life.missed++;
      life.nextVisit = today + REBOOK_WEEKS * WEEK;
      return;
    }
    life.visits++;
    life.seenDays.push(today);
    const room = look(life.child, today, life.limitMm - life.child.trueSize(today));
    if (!life.making && (room <= 0 || castAhead(life, today, room))) {
      life.casts++;
      life.making = { castDay: today, fitDay: null };
      queue.arrive(life, today);
    }
    if (policy.kind === 'fixed') life.nextVisit = today + Math.round((policy.months * 30.44) / WEEK) * WEEK;
    else lookAhead(life, today, life.making ? null : room);
  };

  const castAhead = (life: Life, today: DayNumber, room: number): boolean => {
    if (policy.kind === 'fixed') return room <= (1 - policy.castAheadShare) * life.child.allowanceMm;
    lookAhead(life, today, room);
    return life.castBy !== null && life.castBy <= isoDate(today + CAST_RATHER_THAN_COME_AGAIN_DAYS);
  };

  /** A device that is ready is worn from today. */
  const handOver = (life: Life, today: DayNumber): void => {
    const { making } = life;
    if (!making || making.fitDay === null || making.fitDay > today) return;
    life.thrownAwayDays += daysLeft(life, today);
    life.castDay = making.castDay;
    life.limitMm = life.child.trueSize(life.castDay) + life.child.allowanceMm;
    life.making = null;
    if (policy.kind === 'fixed') return;
    const room = life.limitMm - life.child.trueSize(today);
    lookAhead(life, today, look(life.child, today, room));
  };

  const wearAWeek = (life: Life, today: DayNumber): void => {
    handOver(life, today);
    if (life.child.trueSize(today) > life.limitMm) life.daysOutgrown += WEEK;
  };

  let planned = new Map<string, DayNumber>();
  /** Every few weeks a clinic that forecasts looks up how long its workshop takes, and may level its weeks. */
  const planAhead = async (w: number, today: DayNumber): Promise<void> => {
    if (policy.kind !== 'forecast' || w % PLAN_EVERY_WEEKS !== 0) return;
    turnaround = estimateTurnaround(jobs, FAMILY, isoDate(today));
    if (policy.levelled) planned = await levelWeeks(lives.map(wanted), today, turnaround, world, planned);
    progress(w / weeks);
  };

  for (let w = 0; w < weeks; w++) {
    const today = start + w * WEEK;
    await planAhead(w, today);
    const due = lives.filter((l) => (planned.get(l.child.id) ?? l.nextVisit) <= today);
    visitsByWeek.push(due.length);
    for (const life of due) {
      planned.delete(life.child.id);
      visit(life, today);
    }
    for (const { job: life, arrived, finished } of queue.serve(today + WEEK - 1)) {
      // Fitted at the next weekly fitting session after it is finished.
      life.making!.fitDay = start + Math.ceil((finished - start) / WEEK) * WEEK;
      jobs.push({
        id: `${life.child.id}@${arrived}`,
        deviceId: life.child.id,
        family: FAMILY,
        stages: { cast: isoDate(arrived), fit: isoDate(life.making!.fitDay) },
        status: 'fitted',
      });
    }
    for (const life of lives) wearAWeek(life, today);
  }
  return {
    policy,
    children: lives.map(
      (l): ChildOutcome => ({
        childId: l.child.id,
        years: world.years,
        daysOutgrown: l.daysOutgrown,
        weightedDays: l.daysOutgrown * harmOf(l.child),
        thrownAwayDays: l.thrownAwayDays,
        casts: l.casts,
        visits: l.visits,
        missed: l.missed,
      }),
    ),
    visitsByWeek,
    overtimeWeeks: visitsByWeek.map((v) => v > world.slotsPerWeek),
    turnaroundDays: jobs.map((j) => dayNumber(j.stages.fit!) - dayNumber(j.stages.cast!)),
  };
}

/** Growth that is over never fills a device: wear thrown away counts for this long at most (usual life, no source). */
const LONGEST_DAYS = 365;
/** Days the worn device would still have fitted. */
function daysLeft({ child, limitMm }: Life, today: DayNumber): number {
  let days = 0;
  while (days < LONGEST_DAYS && child.trueSize(today + days + WEEK) <= limitMm) days += WEEK;
  return child.trueSize(today) > limitMm ? 0 : days;
}

const wanted = (life: Life): Wanted => ({
  id: life.child.id,
  insensateSkin: life.child.insensateSkin,
  castBy: life.making ? null : life.castBy,
  forecast: life.forecast,
  nextVisit: life.nextVisit,
});
