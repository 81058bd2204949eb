import { turnaroundsOf } from '../../clinic/clinic-list.js';
import type { EarlierVisit } from '../../recall/carry-over.js';
import { harmADay } from '../../recall/decide/accepted-chance.js';
import { ADJUSTING_SHARE } from '../../recall/decide/decide-device.js';
import { recallSettings } from '../../recall/decide/recall-settings.js';
import { DAYS_A_YEAR, type DayNumber, dayNumber, isoDate } from '../../records/dates.js';
import { loadRules } from '../../rules/load-rules.js';
import { type RandomStream, randomStream } from '../../statistics/random-stream.js';
import { hash } from '../backtest/clinic-noise.js';
import { ChildInCare } from './child-in-care.js';
import type {
  ChildOutcome,
  PolicyOutcome,
  RecallPolicy,
  SimulatedChild,
  SimulationAssessor,
  SimulationError,
  World,
} from './contract.js';
import { fixedReview } from './fixed-review.js';
import { type Answered, ask, type ForecastClinic, forecastReview, nextVisitOf } from './forecast-review.js';
import { levelWeeks } from './level-weeks.js';
import { WorkshopQueue } from './workshop-queue.js';

const WEEK = 7;
/** A visit missed is made up three weeks later; a plan is made every four weeks. */
const REBOOK_WEEKS = 3;
const PLAN_EVERY_WEEKS = 4;
/** A new device is looked at within four weeks of its fitting, whoever asks for it (common practice, no source). */
const FIRST_LOOK_DAYS = 28;
/** Days of work and curing a job needs once begun, as shares of what its rule gives it with queueing (common practice, no source). */
const WORK_SHARE = [0.52, 0.95] as const;
const MONTH_DAYS = 30.44;

interface Life {
  readonly child: ChildInCare;
  readonly random: RandomStream;
  nextVisit: DayNumber;
  answered: Answered | null;
  planned: EarlierVisit | null;
}

/** Runs a caseload week by week. A policy sees the records of the visits that were kept, and nothing of the future. */
export async function simulateCaseload(
  children: readonly SimulatedChild[],
  policy: RecallPolicy,
  world: World,
  assess: SimulationAssessor,
  error: SimulationError,
): Promise<PolicyOutcome> {
  const clinic = new SimulatedClinic(children, policy, world, assess, error);
  const weeks = Math.round((world.years * DAYS_A_YEAR) / WEEK);
  for (let w = 0; w < weeks; w++) {
    if (w % PLAN_EVERY_WEEKS === 0) await clinic.planAhead(w);
    clinic.liveAWeek(w);
  }
  return clinic.outcome();
}

class SimulatedClinic {
  private readonly start: DayNumber;
  private readonly lives: readonly Life[];
  private readonly queue: WorkshopQueue<Life>;
  private readonly overtimeWeeks: boolean[] = [];
  private readonly settings;
  private forecasts: ForecastClinic;

  constructor(
    children: readonly SimulatedChild[],
    private readonly policy: RecallPolicy,
    private readonly world: World,
    assess: SimulationAssessor,
    error: SimulationError,
  ) {
    const chosen = policy.kind === 'forecast' ? policy.acceptedChance : undefined;
    this.settings = recallSettings.parse(chosen === undefined ? {} : { acceptedChance: chosen });
    this.start = dayNumber(world.start);
    const rules = loadRules();
    this.forecasts = { assess, rules, settings: this.settings, ...this.workshopOn(this.start) };
    const benchRandom = randomStream(hash(`${world.seed}|benches`));
    const usual = children.reduce((sum, c) => sum + c.rule.turnaroundDays.value, 0) / children.length;
    const working = (usual * (WORK_SHARE[0] + WORK_SHARE[1])) / 2;
    this.queue = new WorkshopQueue<Life>(
      Math.max(1, Math.ceil((world.jobsPerWeek * working) / WEEK)),
      ({ child }) =>
        Math.round(
          child.simulated.rule.turnaroundDays.value *
            (WORK_SHARE[0] + (WORK_SHARE[1] - WORK_SHARE[0]) * benchRandom.uniform()),
        ),
    );
    this.lives = children.map((simulated, k): Life => {
      const random = randomStream(hash(`${world.seed}|life ${k}`));
      const castDay = this.start - simulated.rule.turnaroundDays.value - Math.floor(random.uniform() * 180);
      const child = new ChildInCare(simulated, error, castDay);
      return {
        child,
        random,
        answered: null,
        planned: null,
        nextVisit: this.start + Math.floor(random.uniform() * 8) * WEEK,
      };
    });
  }

  /** What is known of the workshop on a day. */
  private workshopOn(day: DayNumber): Pick<ForecastClinic, 'jobs' | 'turnaroundOf'> {
    const jobs = (this.lives ?? []).flatMap(({ child }) => child.record().jobs);
    return { jobs, turnaroundOf: turnaroundsOf(jobs, isoDate(day), loadRules()) };
  }

  /** Every few weeks a clinic that forecasts looks up how long its workshop takes, and may level its weeks. */
  async planAhead(week: number): Promise<void> {
    if (this.policy.kind === 'fixed') return;
    const today = this.start + week * WEEK;
    this.forecasts = { ...this.forecasts, ...this.workshopOn(today) };
    for (const life of this.lives) life.answered ??= this.lookAgain(life, today);
    if (!this.policy.levelled) return;
    const weeks = await levelWeeks(this.lives, isoDate(today), this.forecasts, this.world);
    for (const life of this.lives) {
      life.planned = weeks.get(life.child.id) ?? null;
      if (life.planned?.plannedWeek) life.nextVisit = dayNumber(life.planned.plannedWeek);
    }
  }

  private lookAgain(life: Life, today: DayNumber): Answered {
    const answered = ask(life.child, today, this.forecasts);
    life.nextVisit = nextVisitOf(answered, life.child, today);
    return answered;
  }

  liveAWeek(week: number): void {
    const today = this.start + week * WEEK;
    const due = this.lives.filter((l) => l.nextVisit <= today);
    this.overtimeWeeks.push(due.length > this.world.slotsPerWeek);
    for (const life of due) this.visit(life, today);
    // Fitted at the next weekly fitting session after it is finished.
    for (const { job: life, finished } of this.queue.serve(today + WEEK - 1))
      life.child.making!.fitDay = this.start + Math.ceil((finished - this.start) / WEEK) * WEEK;
    for (const life of this.lives) this.wearAWeek(life, today);
  }

  private visit(life: Life, today: DayNumber): void {
    const { child, random } = life;
    const { policy } = this;
    if (random.uniform() < this.world.missedShare) {
      child.tally.missed++;
      life.nextVisit = today + REBOOK_WEEKS * WEEK;
      if (life.planned) life.planned = { ...life.planned, state: 'did-not-come' };
      return;
    }
    life.planned = null;
    child.tally.visits++;
    const before = child.making;
    if (policy.kind === 'fixed') {
      fixedReview(child, today, policy.castAheadShare);
      life.nextVisit = today + Math.round((policy.months * MONTH_DAYS) / WEEK) * WEEK;
    } else {
      life.answered = forecastReview(child, today, this.forecasts);
      life.nextVisit = nextVisitOf(life.answered, child, today);
    }
    if (child.making && child.making !== before) this.queue.arrive(life, today);
  }

  private wearAWeek(life: Life, today: DayNumber): void {
    if (life.child.fitWhatIsReady(today)) {
      if (this.policy.kind === 'forecast') life.answered = this.lookAgain(life, today);
      life.nextVisit = Math.min(life.nextVisit, today + FIRST_LOOK_DAYS);
    }
    life.child.wearAWeek(today);
  }

  outcome(): PolicyOutcome {
    const { policy, overtimeWeeks } = this;
    return { policy, children: this.lives.map(({ child }) => this.outcomeOf(child)), overtimeWeeks };
  }

  private outcomeOf({ id, tally, simulated }: ChildInCare): ChildOutcome {
    const harm = harmADay(simulated.rule, simulated.child.insensateSkin, this.settings);
    return {
      ...tally,
      childId: id,
      years: this.world.years,
      weightedDays: harm * (tally.daysOutgrown + ADJUSTING_SHARE * tally.daysWaiting),
    };
  }
}
