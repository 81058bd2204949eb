import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber, type IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { adjustmentsLeftOn, type DimensionLimit } from '../../rules/dimension-limits.js';
import type { PartDue } from '../contract.js';
import type { Futures } from '../futures.js';
import { type DeviceLines, deviceLines } from './device-lines.js';
import type { DevicePlan } from './device-plan.js';
import type { DeviceQuestion } from './device-question.js';
import { dueDays } from './due-days.js';
import { growthStopped, type Halt } from './growth-stopped.js';
import { holdStopped } from './hold-stopped.js';
import { judgedDraws } from './judged-draws.js';
import { passageCurve } from './passage-curve.js';

export type DeviceCourse = ReturnType<typeof deviceCourse>;

/** How a device is outgrown, adjusted and renewed over the days: the dear part of its forecast, the same whatever day is asked about while the record is. */
export function deviceCourse({ record, plan, futures: drawnFutures, today, seed }: DeviceQuestion) {
  const { limits, search, history } = plan;
  const halts = haltsOf(record, limits);
  const futures = holdStopped(drawnFutures, halts);
  const { days, draws } = futures;
  const castIndex = days.indexOf(dayNumber(history.castDate));
  const drawn = judgedDraws(futures, limits, plan.judgements, castIndex, seed);
  const lines = deviceLines(plan, futures, drawn.own);
  const ending = endingLimits(plan);
  const { chance, share, dayOf } = passageCurve(
    days,
    search,
    ending.map((d) => lines.spent[d]),
    draws,
    drawn.luck,
  );
  const said = judgedBeyondUse(plan, today);
  if (said !== null) for (let j = 0; j < search.length; j++) if (search[j] >= dayNumber(said)) chance[j] = 1;
  const fallen = share.reduce((sum, s) => sum + s, 0);
  const drivers = ending
    .map((d, k) => ({ series: limits[d].series, share: fallen > 0 ? share[k] / fallen : 0 }))
    .filter((d) => d.share > 0)
    .sort((a, b) => b.share - a.share);
  return {
    halts,
    futures,
    castIndex,
    drawn,
    chance,
    dayOf,
    said,
    drivers,
    /** Per limit that a strap, a flare or a bar still answers: when that is wanted. */
    wanted: limits.map((limit, d) =>
      adjustmentsLeftOn(limit, today).length > 0 ? dueDays(days, search, [lines.wanted[d]], draws) : null,
    ),
    parts: partsDue(plan, futures, lines),
  };
}

/** Limits that end the device: those that no part renews. */
function endingLimits({ rule, limits }: DevicePlan): number[] {
  const renewed = new Set(rule.parts.flatMap((p) => p.renews));
  return limits.flatMap((l, d) => (renewed.has(l.series.measure) ? [] : [d]));
}

/** The day a person said it is outgrown, unless the limit they named can still be adjusted or renewed with a part. */
function judgedBeyondUse({ history, limits, rule }: DevicePlan, today: IsoDate): IsoDate | null {
  const said = history.judgedOutgrown;
  if (said === null) return null;
  const answered =
    said.measure !== null &&
    (rule.parts.some((p) => p.renews.includes(said.measure!)) ||
      limits.some((l) => l.series.measure === said.measure && adjustmentsLeftOn(l, today).length > 0));
  return answered ? null : said.date;
}

function haltsOf(record: ChildRecord, limits: readonly DimensionLimit[]): Map<string, Halt> {
  const halts = new Map<string, Halt>();
  for (const { series } of limits) {
    const halt = growthStopped(record, series);
    if (halt) halts.set(seriesKey(series), halt);
  }
  return halts;
}

function partsDue({ rule, limits, search }: DevicePlan, futures: Futures, lines: DeviceLines): PartDue[] {
  return rule.parts.flatMap((part): PartDue[] => {
    const own = limits.flatMap((l, d) => (part.renews.includes(l.series.measure) ? [d] : []));
    if (own.length === 0) return [];
    const { share, days } = dueDays(
      futures.days,
      search,
      own.map((d) => lines.spent[d]),
      futures.draws,
    );
    const first = share.indexOf(Math.max(...share));
    return [{ part: part.id, series: limits[own[first]].series, days }];
  });
}
