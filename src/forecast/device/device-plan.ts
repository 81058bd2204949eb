import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { type DeviceHistory, deviceHistory } from '../../records/device-history.js';
import type { MeasureId } from '../../records/measure.js';
import { type DimensionLimit, dimensionLimits } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';

/** What must be known of one device before any future is drawn. */
export interface DevicePlan {
  readonly device: Device;
  readonly rule: FamilyRule;
  readonly history: DeviceHistory;
  /** Limits that count for this child: the model follows them, or they keep their proportion to one it follows. */
  readonly limits: readonly DimensionLimit[];
  readonly verdicts: readonly DeviceEvent[];
  /** Days on which the limits are tried: from the last time it was accepted as wearable to the horizon. */
  readonly search: readonly DayNumber[];
  /** Index of today in `search`. */
  readonly todayIndex: number;
  /**
   * Days at which a path must be drawn so that it may be taken as linear between. They depend on the cast alone: a
   * verdict or an adjustment more is judged in the very same futures.
   */
  readonly knots: readonly DayNumber[];
}

const PAST_STEP_DAYS = 28;
/** After a year ahead growth is uncertain by many millimetres, and every second knot is enough. */
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

function range(from: number, to: number, step: number): number[] {
  const days: number[] = [];
  for (let d = from; step > 0 ? d < to : d > to; d += step) days.push(d);
  return days;
}

export function planDevice(
  record: ChildRecord,
  device: Device,
  rule: FamilyRule,
  today: IsoDate,
  follows: (measure: MeasureId) => boolean,
): DevicePlan {
  const history = deviceHistory(device, record.events);
  const measured = new Set(record.measurements.map((m) => m.measure));
  const wearer = { birthDate: record.child.birthDate, measured };
  const limits = dimensionLimits(rule, device, record.events, wearer).filter((l) =>
    follows(l.series.measure),
  );
  const now = dayNumber(today);
  const end = now + rule.horizonDays.value;
  const age = decimalAgeYears(record.child.birthDate, today);
  const knot = knotStep(rule, age);
  const past = range(dayNumber(history.lastAccepted), now, PAST_STEP_DAYS);
  const step = rule.resolution === 'day' ? 1 : 7;
  const future = range(now, end + step, step);
  const verdicts = history.since.filter((e) => e.kind === 'verdict');
  const knots = [
    dayNumber(history.castDate),
    ...range(now - knot, dayNumber(history.castDate), -knot),
    ...range(now, now + FINE_DAYS, knot),
    ...range(now + FINE_DAYS, end, 2 * knot),
    future[future.length - 1],
  ];
  return {
    device,
    rule,
    history,
    limits,
    verdicts,
    search: [...past, ...future],
    todayIndex: past.length,
    knots: [...new Set(knots)].sort((a, b) => a - b),
  };
}
