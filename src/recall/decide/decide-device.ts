import { type DeviceForecast, saysNothing } from '../../forecast/contract.js';
import { AGREE_DAYS, stoodStill } from '../../forecast/device/growth-stopped.js';
import { addDaysIso, dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type DeviceHistory, deviceHistory } from '../../records/device-history.js';
import type { DeviceDecision } from '../contract.js';
import { acceptedChance, harmADay } from './accepted-chance.js';
import { adjustAsJudged, adjustByReadings } from './adjust-by-readings.js';
import { adjustStep } from './adjust-step.js';
import { alertsOf } from './alerts-of.js';
import { type BeyondUseChance, beyondUseChance } from './beyond-use-chance.js';
import { addMonthsIso } from './calendar.js';
import { castBy, plannedWait } from './cast-by.js';
import { decidingRoom, type Look, lookAt, paceReserve } from './check-figure.js';
import type { Choice } from './choice.js';
import { chooseAction, nextReviewBy } from './choose-action.js';
import type { DeviceFacts, DeviceQuestion } from './device-facts.js';
import { chanceDueBy } from './due-by-chance.js';
import { firstLookBy } from './first-look.js';
import { partDue } from './part-due.js';
import type { RecallSettings } from './recall-settings.js';
import { reviewBy, reviewDays } from './review-by.js';
import { roomByReadings, roomsByReadings } from './room-by-readings.js';

/** Unknown is not safe: where nothing can be said the chance counts as one half. */
const UNKNOWN = 0.5;
/** A joint or strap that waits for its adjustment harms half as much as a device beyond use (common practice, no source). */
export const ADJUSTING_SHARE = 0.5;
/** A look is early enough until half as much again of the accepted chance is reached (common practice, no source). */
const LOOK = 1.5;
const WEEK = 7;
const NO_LOOK: Look = { figure: null, foregone: null };
/** Actions after which the device goes on: what else is due on it is done in the same visit. */
const KEEPS: readonly Choice['action'][] = ['adjust', 'renew-part', 'check', 'review'];

/** The one answer for a device in use. */
export function decideDevice(question: DeviceQuestion): DeviceDecision {
  const facts = factsOf(question);
  const { record, device, rule, today, turnaround, settings, forecast, chance } = facts;
  const choice = chooseAction(facts);
  const usual = harmADay(rule, record.child.insensateSkin, settings);
  // A day without the device, broken or lost, weighs like one beyond use on skin that cannot warn (common practice, no source).
  const harm = choice.action === 'repair' ? Math.max(usual, settings.harmInsensate) : usual;
  const earliest = addDaysIso(today, plannedWait(turnaround, settings.fitWaitDays));
  const byFitting = chance ? chance.at(dayNumber(earliest)) : null;
  const decided = choice.action === 'cast' || choice.action === 'check';
  const past = facts.castBy !== null && facts.castBy < today && facts.beyondUseSince === null;
  return {
    deviceId: device.id,
    family: device.family,
    side: device.side,
    action: choice.action,
    reason: choice.reason,
    dueBy: choice.dueBy,
    castBy: facts.castBy,
    tooLateSince: decided && past && choice.dueBy !== null && choice.dueBy <= today ? facts.castBy : null,
    beyondUseSince: facts.beyondUseSince,
    daysBeyondUse: facts.beyondUseSince ? daysBetween(facts.beyondUseSince, today) : 0,
    acceptedChance: facts.accepted,
    chanceToday: facts.chanceToday,
    chanceByEarliestFitting: byFitting,
    checkFigure: ['check', 'review'].includes(choice.action) && dueSoon(facts) ? facts.look.figure : null,
    adjust:
      KEEPS.includes(choice.action) && facts.adjust && facts.adjust.by <= facts.until ? facts.adjust : null,
    part:
      KEEPS.includes(choice.action) && facts.part && facts.part.by <= facts.until ? facts.part.part : null,
    reviewBy: nextReviewBy(facts),
    harmPerWeek: WEEK * harm * chanceToCount(facts, choice, byFitting, earliest),
    fundedFrom: facts.fundedFrom,
    alerts: alertsOf(record),
    forecast,
  };
}

const dueSoon = ({ castBy: by, until }: DeviceFacts): boolean => by !== null && by <= until;

function factsOf(question: DeviceQuestion): DeviceFacts {
  const { record, device, rule, forecast, turnaround, today, settings } = question;
  const history = deviceHistory(device, record.events);
  const harm = harmADay(rule, record.child.insensateSkin, settings);
  const accepted = acceptedChance(harm, settings);
  const chance = forecast ? beyondUseChance(forecast) : null;
  const wait = plannedWait(turnaround, settings.fitWaitDays);
  const dates = castDates(chance, accepted, wait, lastRoom(history));
  const cast = dates.castBy;
  const every = reviewDays(rule, record, today);
  const half = forecast?.p50 ?? null;
  const visit = cast === null || cast < today ? today : cast;
  const rooms = rule ? roomsByReadings(rule, device, record, history.castDate, today) : [];
  const adjust = nextAdjustment(question, rooms, accepted, every);
  const look = forecast ? lookAt(forecast, accepted, today, visit, every, wait) : NO_LOOK;
  const wearOnly = isWearOnly(question);
  const usual = reviewBy(rule, record, today, wearOnly, settings);
  return {
    ...question,
    history,
    chance,
    accepted,
    harm,
    plainRoom: forecast ? roomByReadings(forecast, rooms, today, wait) : null,
    ...dates,
    beyondUseSince: half !== null && half <= today ? half : null,
    chanceToday: chance ? chance.at(dayNumber(today)) : chanceWithoutDates(forecast),
    neededAtVisit: needed(chance, forecast, accepted, visit, every + wait),
    adjust,
    part: forecast && rule ? partDue(rule, forecast, accepted, rooms, today) : null,
    look,
    wearOnly,
    // An adjustment that falls due before the review brings it forward.
    reviewBy: adjust && adjust.by > today && adjust.by < usual ? adjust.by : usual,
    firstLookBy: firstLookBy(device, history, record, every, today),
    fundedFrom: fundedFrom(device, history, settings, today),
  };
}

/** The day to cast by at the accepted chance, at an even one, and up to which a look is early enough. */
function castDates(
  chance: BeyondUseChance | null,
  accepted: number,
  wait: number,
  room: IsoDate,
): Pick<DeviceFacts, 'castBy' | 'evenCastBy' | 'lookBy'> {
  const at = (level: number) => (chance ? castBy(chance, level, wait, room) : null);
  return { castBy: at(accepted), evenCastBy: at(0.5), lookBy: at(LOOK * accepted) };
}

/** What a reviewer or the readings ask for, where the forecast's step does not come before it. */
function nextAdjustment(
  { rule, device, record, forecast, today }: DeviceQuestion,
  rooms: ReturnType<typeof roomsByReadings>,
  accepted: number,
  every: number,
): DeviceFacts['adjust'] {
  const step = forecast && adjustStep(forecast, accepted, today, every);
  const judged = rule && adjustAsJudged(rule, device, record, forecast?.lastVerdict, today);
  const asked = judged ?? (forecast && adjustByReadings(rooms, forecast, today));
  return asked && (!step || step.by > asked.by) ? asked : step;
}

/** Is it reviewed for wear alone, growth being over, as readings of every side nearly a year apart have shown, or of no matter? */
function isWearOnly({ record, forecast }: DeviceQuestion): boolean {
  if (record.child.palliative || forecast === null) return record.child.palliative;
  if (forecast.outcome !== 'full-grown') return ['adult', 'palliative'].includes(forecast.outcome);
  const measure = decidingRoom(forecast)?.series.measure;
  // Growth ends in the child: one side that stood still says nothing while the other's readings grew.
  const own = record.measurements.filter((m) => m.measure === measure);
  return own.length > 0 && own.every((m) => stoodStill(record, m, AGREE_DAYS) !== null);
}

/**
 * Chance that the room found on the visit is at most the deciding figure: that the limit would be passed before a cast
 * at the review after could be fitted, growth running as fast as it may at the accepted chance.
 */
function needed(
  chance: BeyondUseChance | null,
  forecast: DeviceForecast | null,
  accepted: number,
  visit: IsoDate,
  days: number,
): number | null {
  if (!chance || !forecast) return null;
  return chance.at(dayNumber(visit) + days * paceReserve(decidingRoom(forecast), accepted));
}

/** The chance today where no dates are told: unknown, which is not nought, of a child who was never measured. */
const chanceWithoutDates = (forecast: DeviceForecast | null): number | null =>
  forecast === null || saysNothing(forecast) ? null : forecast.probabilityOutgrownNow;

/** Last day a person found room in it; what was called tight may have had none. */
const lastRoom = ({ fittedDate, castDate, since }: DeviceHistory): IsoDate =>
  since.findLast((e) => e.verdict === 'good' || e.verdict === 'loose')?.date ?? fittedDate ?? castDate;

function chanceToCount(
  facts: DeviceFacts,
  choice: Choice,
  byFitting: number | null,
  earliest: IsoDate,
): number {
  const beyond =
    byFitting ?? facts.chanceToday ?? (['measure', 'check'].includes(choice.action) ? UNKNOWN : 0);
  if (choice.action === 'repair') return Math.max(beyond, 1);
  if (choice.action !== 'adjust' || !facts.forecast) return beyond;
  const due = Math.max(...(facts.forecast.adjustments ?? []).map((a) => chanceDueBy(a.days, earliest)), 0);
  return Math.max(beyond, ADJUSTING_SHARE * due);
}

function fundedFrom(
  device: Device,
  history: DeviceHistory,
  settings: RecallSettings,
  today: IsoDate,
): IsoDate | null {
  const months = settings.eligibleAfterMonths[device.family] ?? 0;
  if (months <= 0) return null;
  const from = addMonthsIso(history.fittedDate ?? history.castDate, months);
  return from > today ? from : null;
}
