import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import type { DeviceHistory } from '../../records/device-history.js';
import { type DimensionLimit, limitOn } from '../../rules/dimension-limits.js';

/** A day on which a person said, by word or by letting it be worn, whether there was room. */
export interface Judgement {
  readonly day: DayNumber;
  /**
   * 'room': somewhere between nothing and enough; handed over or adjusted says that much. 'good' and 'loose': more than a
   * reviewer calls tight, or twice that; half of it where no limit was named. 'tight': less than that, or none: toes
   * at the edge are called so as well as toes over it. 'none': past it.
   */
  readonly said: 'room' | 'good' | 'loose' | 'tight' | 'none';
  /** Indices of the limits judged. */
  readonly limits: readonly number[];
  /** The verdict it was said in; null where it was shown by an act. */
  readonly verdict: DeviceEvent | null;
}

const SAID = { loose: 'loose', good: 'good', tight: 'tight', outgrown: 'none' } as const;

/** Every judgement since the cast, in order of time. */
export function judgementsOf(history: DeviceHistory, limits: readonly DimensionLimit[]): Judgement[] {
  const all = limits.map((_, d) => d);
  const handedOver: Judgement[] =
    history.fittedDate !== null && history.fittedDate >= history.castDate
      ? [{ day: dayNumber(history.fittedDate), said: 'room', limits: all, verdict: null }]
      : [];
  const since = history.since.flatMap((e): Judgement[] => {
    const day = dayNumber(e.date);
    if (e.kind === 'adjusted') return [{ day, said: 'room', limits: all, verdict: null }];
    // A note without a word on the fit judges nothing.
    if (e.verdict === null) return [];
    const judged = all.filter((d) => speaksOf(e, limits[d]));
    return [{ day, said: SAID[e.verdict], limits: judged, verdict: e }];
  });
  return [...handedOver, ...since].sort((a, b) => a.day - b.day);
}

const speaksOf = (e: DeviceEvent, { series }: DimensionLimit): boolean =>
  (e.measure === null || e.measure === series.measure) &&
  (e.side === null || e.side === 'none' || e.side === series.side);

/** The line as it stood when it was judged: 'no room' is said before what is done about it that day. */
export function lineJudged(limit: DimensionLimit, date: IsoDate, said: Judgement['said']): number {
  if (said !== 'none') return limitOn(limit, date);
  return limit.gains.reduce((sum, g) => (g.date < date ? sum + g.mm : sum), limit.baseMm);
}

/** Per limit: the last day on which a person found room there; nothing before it is beyond use. */
export function clearUntil(judgements: readonly Judgement[], limits: number): Float64Array {
  const until = new Float64Array(limits).fill(Number.NEGATIVE_INFINITY);
  for (const j of judgements)
    for (const d of j.limits)
      if (j.said !== 'none' && j.said !== 'tight') until[d] = Math.max(until[d], j.day);
  return until;
}
