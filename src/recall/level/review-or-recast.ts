import { probit } from 'simple-statistics';
import type { DeviceForecast } from '../../forecast/contract.js';
import { daysBetween } from '../../records/dates.js';
import { measures } from '../../records/measure.js';
import type { TurnaroundEstimate } from '../contract.js';
import type { LevellingSettings } from './contract.js';

/** Technical error of a foot traced at home or at school, mm (common practice, no source). */
const FOOT_AT_HOME_MM = 3;
/** What a call costs against a visit (common practice, no source). */
const CALL_SHARE_OF_VISIT = 0.2;
const P10_TO_P90_IN_SD = 2 * 1.2815515655446004;

export interface ReviewOrRecast {
  readonly decision: 'measure' | 'cast';
  /** 'home': a parent or the school can measure; 'clinic': a visit. */
  readonly where: 'home' | 'clinic';
  /** Weighted days that one more measurement would spare, and what it costs. */
  readonly worthDays: number;
  readonly costDays: number;
  /** SD of the outgrown date now, and what would remain of it, days. */
  readonly sdNowDays: number;
  readonly sdAfterDays: number;
  readonly text: string;
}

/**
 * Is knowing more worth it before casting? The cost of a cast date is that of a newsvendor: h a day too late, c a day
 * too early. For a Normal outgrown date with SD s the best date still costs s (h + c) phi(z), z = PHI^-1(h/(h + c))
 * (Arrow, Harris & Marschak 1951; the Normal form as in textbooks of operations research - from memory), so a reading
 * that takes the SD from s to s' is worth (s - s')(h + c) phi(z).
 * What a reading can take away is the doubt about the present size: its SD over the speed of growth, in days.
 * Null without dates or room to reckon with.
 */
export function reviewOrRecast(
  forecast: DeviceForecast,
  turnaround: Pick<TurnaroundEstimate, 'p10Days' | 'p90Days'>,
  settings: Pick<LevellingSettings, 'insensateWeight' | 'wastedDayCost' | 'visitCost'>,
  insensateSkin: boolean,
): ReviewOrRecast | null {
  const driver = forecast.drivers[0]?.series;
  const room = forecast.room.find(
    (r) => r.series.measure === driver?.measure && r.series.side === driver?.side,
  );
  if (!driver || !room || !forecast.p10 || !forecast.p50 || !forecast.p90 || room.roomMm <= 0) return null;
  const daysLeft = daysBetween(forecast.today, forecast.p50);
  if (daysLeft <= 0) return null;
  const speedMmADay = room.roomMm / daysLeft;
  const where = driver.measure === 'foot_length' ? 'home' : 'clinic';
  const errorMm = where === 'home' ? FOOT_AT_HOME_MM : measures[driver.measure].technicalError;
  const sizeSd = room.grownSdMm;
  const sizeSdAfter = (sizeSd * errorMm) / Math.hypot(sizeSd, errorMm);
  const dateSd = daysBetween(forecast.p10, forecast.p90) / P10_TO_P90_IN_SD;
  const turnaroundSd = (turnaround.p90Days - turnaround.p10Days) / P10_TO_P90_IN_SD;
  const removable = (sizeSd ** 2 - sizeSdAfter ** 2) / speedMmADay ** 2;
  const sdNowDays = Math.hypot(dateSd, turnaroundSd);
  // The forecast's own spread bounds what a reading can take from it.
  const sdAfterDays = Math.sqrt(Math.max(0, dateSd ** 2 - removable) + turnaroundSd ** 2);
  const late = insensateSkin ? settings.insensateWeight : 1;
  const worthDays = (sdNowDays - sdAfterDays) * expectedCostPerSd(late, settings.wastedDayCost);
  const costDays = settings.visitCost * (where === 'home' ? CALL_SHARE_OF_VISIT : 1);
  const decision = worthDays > costDays ? 'measure' : 'cast';
  const text =
    decision === 'cast'
      ? 'The odds are plain enough to cast.'
      : where === 'home'
        ? 'A foot measured at home or at school would settle the date; ask for it by telephone before booking a cast.'
        : 'A measurement would move the cast date enough to be worth a visit first.';
  return { decision, where, worthDays, costDays, sdNowDays, sdAfterDays, text };
}

/** (h + c) phi(PHI^-1(h/(h + c))): expected cost of the best date per unit of SD. expectedCostPerSd(1, 1) = 0.798. */
export function expectedCostPerSd(latePerDay: number, earlyPerDay: number): number {
  const all = latePerDay + earlyPerDay;
  if (latePerDay <= 0 || earlyPerDay <= 0) return 0;
  const z = probit(latePerDay / all);
  return (all * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}
