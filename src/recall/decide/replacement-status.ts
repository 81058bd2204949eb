import type { DeviceForecast } from '../../forecast/contract.js';
import { addDaysIso, dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { expectedFitting, type StageDurations } from '../../turnaround/expected-fitting.js';
import type { ReplacementInProgress, TurnaroundEstimate } from '../contract.js';
import { outgrownChance } from './outgrown-chance.js';
import { plainDate, plainDevices } from './reason-text.js';
import type { Replacement } from './replacement-in-progress.js';

/**
 * How a replacement in the workshop stands: expected fitting from the stage its job has reached, or without a job from
 * the turnaround still ahead of it given the days it has been there, and the chance that the worn device is outgrown first.
 */
export function replacementStatus(
  worn: Device,
  forecast: DeviceForecast | null,
  replacement: Replacement,
  turnaround: TurnaroundEstimate,
  history: StageDurations,
  today: IsoDate,
  tolerance: number,
): ReplacementInProgress {
  const begun = replacement.job?.stages.cast ?? replacement.device.castDate;
  const waited = Math.max(0, daysBetween(begun, today));
  const usual = turnaround.samplesDays.filter((d) => d > waited).map((d) => d - waited);
  // Longer in the workshop than any job expected: no date is invented, it must be asked for.
  const lost = usual.length === 0;
  const byStage = replacement.job && !lost ? expectedFitting(replacement.job, history) : null;
  const ahead = byStage?.samplesDays ?? usual;
  const expected = lost ? null : addDaysIso(today, ahead[Math.floor(ahead.length / 2)]);
  const chance = forecast ? outgrownChance(forecast) : null;
  const now = dayNumber(today);
  const waits = lost ? [0] : ahead;
  const risk = chance ? waits.reduce((sum, w) => sum + chance.at(now + w), 0) / waits.length : null;
  const late = lost || (risk !== null && risk > tolerance);
  const name = plainDevices([worn]);
  const reason = lost
    ? `The next device for ${name} has been with the workshop longer than usual; we are asking when it will be ready.`
    : `The next device for ${name} is being made and should be ready around ${plainDate(expected!)}${late ? '; please ring us now if the present one rubs, marks or hurts' : ''}.`;
  return {
    childId: worn.childId,
    deviceId: worn.id,
    replacementDeviceId: replacement.device.id,
    expectedFitting: expected,
    riskUntilFitted: risk,
    late,
    reason,
  };
}
