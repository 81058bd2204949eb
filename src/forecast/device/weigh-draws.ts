import { dayNumber } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import { type DimensionLimit, limitOn } from '../../rules/dimension-limits.js';
import type { Futures } from '../futures.js';
import { type JudgedRoom, verdictLikelihood } from './verdict-evidence.js';

export interface WeighedDraws {
  /** Per draw, sum 1. */
  readonly weights: Float64Array;
  /** Per verdict: its likelihood averaged over what was believed before it; small when growth and verdict disagree. */
  readonly surprise: readonly { readonly event: DeviceEvent; readonly likelihood: number }[];
}

/**
 * Weights the draws by the fit verdicts: a future whose room contradicts what reviewers saw counts for less.
 * `deviations[d][i]` is draw i's deviation of limit d from its stated value, mm.
 */
export function weighDraws(
  futures: Futures,
  limits: readonly DimensionLimit[],
  deviations: readonly Float64Array[],
  castIndex: number,
  verdicts: readonly DeviceEvent[],
): WeighedDraws {
  const { draws, days } = futures;
  const weights = new Float64Array(draws).fill(1 / draws);
  const surprise: { event: DeviceEvent; likelihood: number }[] = [];
  for (const event of verdicts) {
    const on = dayNumber(event.date);
    const at = Math.min(
      days.length - 2,
      Math.max(
        0,
        days.findLastIndex((d) => d <= on),
      ),
    );
    const share = days.length < 2 ? 0 : (on - days[at]) / (days[at + 1] - days[at]);
    const judged = limits.flatMap((limit, d) =>
      (event.measure === null || event.measure === limit.series.measure) &&
      (event.side === null || event.side === 'none' || event.side === limit.series.side)
        ? [{ limit, d, path: futures.paths.get(seriesKey(limit.series))! }]
        : [],
    );
    if (event.verdict === null || judged.length === 0) continue;
    let total = 0;
    for (let i = 0; i < draws; i++) {
      const row = i * days.length;
      const rooms = judged.map(({ limit, d, path }): JudgedRoom => {
        const size =
          share === 0 ? path[row + at] : path[row + at] + share * (path[row + at + 1] - path[row + at]);
        const used = size - (limit.kind === 'growth' ? path[row + castIndex] : 0);
        return {
          roomMm: limitOn(limit, event.date) + deviations[d][i] - used,
          tightWithinMm: limit.dimension.tightWithinMm.value,
          judgementSdMm: limit.dimension.toleranceMm.value,
        };
      });
      weights[i] *= verdictLikelihood(event.verdict, rooms);
      total += weights[i];
    }
    for (let i = 0; i < draws; i++) weights[i] /= total;
    surprise.push({ event, likelihood: total });
  }
  return { weights, surprise };
}
