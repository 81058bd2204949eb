import type { DeviceDecision } from '../../recall/contract.js';
import { planContext, type TurnaroundOf } from '../../recall/decide/build-recall-list.js';
import type { RecallAssessment } from '../../recall/decide/plan-child.js';
import type { RecallSettings } from '../../recall/decide/recall-settings.js';
import { safePlan } from '../../recall/decide/safe-plan.js';
import { type DayNumber, dayNumber, isoDate } from '../../records/dates.js';
import type { WorkshopJob } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { ChildInCare, Room } from './child-in-care.js';
import type { SimulationAssessor } from './contract.js';
import { easeWhatIsTight } from './fixed-review.js';

/** What the forecasting clinic decides by. */
export interface ForecastClinic {
  readonly assess: SimulationAssessor;
  readonly rules: FitRules;
  readonly settings: RecallSettings;
  /** As last worked out: its jobs and how long they take. */
  readonly jobs: readonly WorkshopJob[];
  readonly turnaroundOf: TurnaroundOf;
}

/** What the product said of a child when it was last seen. */
export interface Answered {
  readonly assessment: RecallAssessment;
  readonly decision: DeviceDecision | null;
}

/** More is not eased on one day than a device has dimensions that matter. */
const MOST_EASED = 6;
/** A child who was just seen is not called again sooner, days. */
const SOONEST_DAYS = 28;

/** The product's answer for the device that is worn, from the record and nothing else. */
export function ask(child: ChildInCare, day: DayNumber, clinic: ForecastClinic): Answered {
  const { rules, settings, jobs, turnaroundOf } = clinic;
  const record = child.record();
  const today = isoDate(day);
  const assessment = clinic.assess(record, today);
  const context = planContext(jobs, turnaroundOf, { today, rules, settings });
  const plan = safePlan(record, assessment, context);
  if (plan.failed !== null) throw plan.failed;
  return { assessment, decision: plan.decisions.find((d) => d.deviceId === child.worn.id) ?? null };
}

/** A visit as the product would have it: read, looked at, eased, its part ordered, cast or left. */
export function forecastReview(child: ChildInCare, day: DayNumber, clinic: ForecastClinic): Answered {
  child.read(day);
  child.judge(day);
  let answer = ask(child, day, clinic);
  for (let k = 0; k < MOST_EASED && answer.decision?.adjust; k++) {
    const { what, measure, side, mm } = answer.decision.adjust;
    if (mm <= 0) break;
    child.adjust(day, { measure, side }, what, mm);
    child.judge(day);
    answer = ask(child, day, clinic);
  }
  easeWhatIsTight(child, day);
  answer = ask(child, day, clinic);
  const { decision } = answer;
  if (!decision || child.making) return answer;
  if (isToBeCast(decision, child, day, clinic)) child.cast(day);
  else if (decision.part !== null) child.order(day, decision.part);
  else return answer;
  return ask(child, day, clinic);
}

/**
 * A cast is asked for, or a look whose deciding figure the room seen does not reach; a look without a figure, or one that
 * a reading is missing for, is the clinician's own: what is tight where nothing answers is cast.
 */
function isToBeCast(
  decision: DeviceDecision,
  child: ChildInCare,
  day: DayNumber,
  { settings: { aheadDays } }: ForecastClinic,
): boolean {
  const { action, checkFigure, castBy } = decision;
  if (action === 'cast') return true;
  if (checkFigure === null) {
    const left =
      (action === 'check' || action === 'measure') && castBy !== null && castBy <= isoDate(day + aheadDays);
    return left && child.seen(day).some(isTight);
  }
  const key = seriesKey({ measure: checkFigure.measure, side: checkFigure.side });
  const room = child.seen(day).find((r) => seriesKey(r.limit.series) === key);
  return room !== undefined && room.roomMm + room.moreMm <= checkFigure.castIfRoomAtMostMm;
}

const isTight = ({ answer, roomMm, limit }: Room): boolean =>
  answer === null && roomMm < limit.dimension.tightWithinMm.value;

/** The day on which the child is wanted next: for what is asked of the device, at the latest at its review. */
export function nextVisitOf({ decision }: Answered, child: ChildInCare, day: DayNumber): DayNumber {
  const review = decision ? dayNumber(decision.reviewBy) : day + 7 * SOONEST_DAYS;
  // Nobody is called for the device that is being made, nor for one after it.
  const due = child.making || !decision?.dueBy ? review : Math.min(review, dayNumber(decision.dueBy));
  return Math.max(due, day + SOONEST_DAYS);
}
