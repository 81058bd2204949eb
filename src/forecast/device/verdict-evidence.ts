import type { DeviceEvent } from '../../records/device.js';
import { normalCdf } from '../../statistics/normal-cdf.js';

/** Share of verdicts that say nothing because they were typed wrong (common practice, no source). */
const SLIP = 0.02;

/** One dimension's room at the verdict, mm, with what a reviewer calls tight and how finely a reviewer sees. */
export interface JudgedRoom {
  readonly roomMm: number;
  readonly tightWithinMm: number;
  readonly judgementSdMm: number;
}

/**
 * Likelihood of a verdict given the true room of each dimension judged: a censored reading of the device's real
 * limit. 'outgrown' says room < 0 somewhere, 'tight' between 0 and `tightWithinMm`, 'good' more than that
 * everywhere, 'loose' more than twice that.
 */
export function verdictLikelihood(
  verdict: NonNullable<DeviceEvent['verdict']>,
  rooms: readonly JudgedRoom[],
): number {
  const above = (factor: number) =>
    Math.min(...rooms.map((r) => normalCdf((r.roomMm - factor * r.tightWithinMm) / r.judgementSdMm)));
  const chance = {
    outgrown: () => 1 - above(0),
    tight: () => above(0) - above(1),
    good: () => above(1),
    loose: () => above(2),
  }[verdict]();
  return SLIP / 4 + (1 - SLIP) * Math.max(0, chance);
}
