import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type DeviceHistory, deviceHistory } from '../../records/device-history.js';
import type { MeasureId } from '../../records/measure.js';
import { type DimensionLimit, dimensionLimits, wearerOf } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { type Judgement, judgementsOf } from './judgements.js';

/** What must be known of one device before any future is drawn. */
export interface DevicePlan {
  readonly device: Device;
  readonly rule: FamilyRule;
  readonly history: DeviceHistory;
  /** Limits that count for this child: measured, and followed by the model or in proportion to one it follows. */
  readonly limits: readonly DimensionLimit[];
  readonly judgements: readonly Judgement[];
  /** The child's last reading of anything, or the cast where none is later. */
  readonly read: DayNumber;
  /** Days on which the limits are tried: from the cast to the horizon, weekly or daily. */
  readonly search: readonly DayNumber[];
  /** Days at which a path must be drawn so that it may be taken as linear between. */
  readonly knots: readonly DayNumber[];
}

/** This far beyond the last reading growth is uncertain by many millimetres, and every second knot is enough. */
const FINE_DAYS = 365;

/**
 * Days between knots. Between two of them a path is a chord: growth that bends by b mm/year^2 strays b step^2 / 8 from it.
 * Heads at 3 months (WHO medians: b about 430) over 14 days: 0.08 mm; stature at 6 months (b under 150) over 28 days:
 * 0.11 mm; stature in the spurt (b under 30) over 56 days: 0.09 mm.
 */
function knotStep(rule: FamilyRule, ageYears: number): number {
  if (rule.resolution === 'day') return 14;
  return ageYears < 4 ? 28 : 56;
}

/** from, from + step .. up to and including `to`, whatever the step. */
function range(from: number, to: number, step: number): number[] {
  const days: number[] = [];
  for (let d = from; d < to; d += step) days.push(d);
  return [...days, to];
}

/**
 * Days from the last reading in whole steps back to the cast and on to the end, at double steps once growth is uncertain:
 * devices of one child share all of them but their own casts.
 */
function knotsBetween(cast: DayNumber, read: DayNumber, end: DayNumber, step: number): DayNumber[] {
  const fineEnd = read + Math.ceil(FINE_DAYS / (2 * step)) * 2 * step;
  const days = [cast];
  for (let d = read - Math.floor((read - cast) / step) * step; d < end; d += d < fineEnd ? step : 2 * step)
    if (d > cast) days.push(d);
  return [...days, end];
}

/**
 * Every day of the plan comes from the cast and the last reading, none from today: the same record gives the same
 * futures tomorrow, so that no date moves because a night has passed.
 */
export function planDevice(
  record: ChildRecord,
  device: Device,
  rule: FamilyRule,
  follows: (measure: MeasureId) => boolean,
): DevicePlan {
  const history = deviceHistory(device, record.events);
  const wearer = wearerOf(record);
  const limits = dimensionLimits(rule, device, record.events, wearer).filter(
    ({ series }) => follows(series.measure) && wearer.measured.has(series.measure),
  );
  const cast = dayNumber(history.castDate);
  const read = record.measurements.reduce((last, m) => Math.max(last, dayNumber(m.date)), cast);
  const end = read + rule.horizonDays.value;
  const knot = knotStep(rule, decimalAgeYears(record.child.birthDate, history.castDate));
  return {
    device,
    rule,
    history,
    limits,
    judgements: judgementsOf(history, limits),
    read,
    search: range(cast, end, rule.resolution === 'day' ? 1 : 7),
    knots: knotsBetween(cast, read, end, knot),
  };
}

/** How old what is known of the child is. */
export const readingAgeDays = ({ read }: DevicePlan, today: IsoDate): number => dayNumber(today) - read;
