import type { DeviceForecast } from '../../forecast/contract.js';
import { addDaysIso, dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { expectedFitting, type StageDurations } from '../../turnaround/expected-fitting.js';
import type { ReplacementInProgress, TurnaroundEstimate } from '../contract.js';
import { beyondUseChance } from './beyond-use-chance.js';
import type { Replacement } from './replacement-in-progress.js';

/**
 * How a replacement in the workshop stands: expected fitting from the stage its job has reached, or without a job from
 * the turnaround still ahead of it given the days it has been there, and the chance that the worn device is beyond use first.
 */
export function replacementStatus(
  worn: Device,
  forecast: DeviceForecast | null,
  replacement: Replacement,
  turnaround: TurnaroundEstimate,
  history: StageDurations,
  rules: FitRules,
  today: IsoDate,
  accepted: number,
): ReplacementInProgress {
  const begun = replacement.job?.stages.cast ?? replacement.device.castDate;
  const waited = Math.max(0, daysBetween(begun, today));
  const usual = turnaround.samplesDays.filter((d) => d > waited).map((d) => d - waited);
  // Longer in the workshop than any job expected: no date is invented, it must be asked for.
  const lost = usual.length === 0;
  const byStage = replacement.job && !lost ? expectedFitting(replacement.job, history, rules) : null;
  const ahead = byStage?.samplesDays ?? usual;
  const chance = forecast ? beyondUseChance(forecast) : null;
  const now = dayNumber(today);
  const waits = lost ? [0] : ahead;
  const risk = chance ? waits.reduce((sum, w) => sum + chance.at(now + w), 0) / waits.length : null;
  return {
    childId: worn.childId,
    deviceId: worn.id,
    replacementDeviceId: replacement.device.id,
    castOn: begun,
    expectedFitting: lost ? null : addDaysIso(today, ahead[Math.floor(ahead.length / 2)]),
    riskUntilFitted: risk,
    late: lost || (risk !== null && risk > accepted),
  };
}
