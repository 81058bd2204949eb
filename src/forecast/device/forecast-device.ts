import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type DayNumber, dayNumber, daysBetween, type IsoDate, isoDate } from '../../records/dates.js';
import { measures, seriesKey } from '../../records/measure.js';
import { adjustmentsLeftOn, type DimensionLimit } from '../../rules/dimension-limits.js';
import {
  type AdjustmentDue,
  type DimensionRoom,
  type ForecastOutcome,
  type PartDue,
  reachedOn,
} from '../contract.js';
import { type Futures, followedSeries } from '../futures.js';
import { staleAfterDays } from '../stale-after.js';
import { chanceOn, dayOfChance } from './chance-by-day.js';
import { type DeviceLines, deviceLines } from './device-lines.js';
import type { DevicePlan } from './device-plan.js';
import type { DeviceAnswer, DeviceQuestion } from './device-question.js';
import { dimensionRoom } from './dimension-room.js';
import { dueDays } from './due-days.js';
import { emptyForecast } from './empty-forecast.js';
import { explainForecast } from './explain-forecast.js';
import { growthStopped, type Halt } from './growth-stopped.js';
import { holdStopped } from './hold-stopped.js';
import { judgedDraws } from './judged-draws.js';
import { passageCurve } from './passage-curve.js';
import { readingNeeded } from './reading-needed.js';
import { sizesOn } from './sizes-on.js';
import { usualLife } from './usual-life.js';
import { worthOfMarker, worthOfReadings } from './worth-of-one-more.js';

/** Full-grown: growth to come hardly ever reaches the room left, and seldom as much as a clinic would notice, mm. */
const MEASURABLE_MM = 3;
const NOTICED_MM = 8;
const SELDOM = 0.2;
const NEGLIGIBLE_CHANCE = 0.05;

/** First-passage forecast of one device from a child's possible futures. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: every answer about one device, from the same futures
export function forecastDevice(question: DeviceQuestion): DeviceAnswer {
  const { record, plan, posterior, today, seed } = question;
  const { limits, search, history } = plan;
  const halts = haltsOf(record, limits);
  const futures = holdStopped(question.futures, halts);
  const { days, draws } = futures;
  const now = dayNumber(today);
  const castIndex = days.indexOf(dayNumber(history.castDate));
  const drawn = judgedDraws(futures, limits, plan.judgements, castIndex, seed);
  const { deviations } = drawn;
  const weights = new Float64Array(draws).fill(1 / draws);
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
  const chanceNow = said !== null ? 1 : chanceOn(search, chance, now);
  const end = chance[search.length - 1] ?? 0;

  const fallen = share.reduce((sum, s) => sum + s, 0);
  const drivers = ending
    .map((d, k) => ({ series: limits[d].series, share: fallen > 0 ? share[k] / fallen : 0 }))
    .filter((d) => d.share > 0)
    .sort((a, b) => b.share - a.share);

  const read = record.measurements.reduce((last, m) => Math.max(last, dayNumber(m.date)), days[castIndex]);
  const room = limits.map((limit, d) =>
    dimensionRoom(limit, futures, castIndex, deviations[d], weights, now, read),
  );
  const grownUp = isGrownUp(question, room, halts);
  const staleDays = daysBetween(isoDate(read), today);
  const stale = staleDays > staleAfterDays(plan.rule, decimalAgeYears(record.child.birthDate, today));
  const outcome = outcomeOf(chanceNow, end, grownUp, stale);
  const date = (p: number): IsoDate | null => {
    if (said !== null) return said;
    const day = dayOfChance(search, chance, p);
    if (day === null || outcome === 'full-grown') return null;
    return outcome === 'already-outgrown' && day > now ? null : isoDate(day);
  };
  const withChances = outcome !== 'full-grown';
  const verdict = plan.judgements.findLast((j) => j.verdict !== null)?.verdict ?? null;
  const facts = {
    ...emptyForecast(record, plan.device, today, seed, posterior),
    outcome,
    p10: date(0.1),
    p50: date(0.5),
    p90: date(0.9),
    dates: withChances ? search.map((d) => isoDate(d)) : [],
    probabilityOutgrown: withChances ? Array.from(chance) : [],
    drivers,
    room,
    adjustments: adjustmentsDue(plan, futures, lines, today),
    parts: partsDue(plan, futures, lines),
    readingWorth: outcome === 'forecast' ? worthOfReadings(question, futures, dayOf) : [],
    markerWorth: outcome === 'forecast' ? worthOfMarker(question, futures, dayOf) : null,
    readingNeeded: readingNeeded(
      record,
      plan,
      drivers[0]?.series ?? limits[0]?.series ?? null,
      question.suggestions,
      today,
    ),
    lastVerdict: verdict && {
      date: verdict.date,
      verdict: verdict.verdict,
      measure: verdict.measure,
      side: verdict.side,
    },
    usualLifeEnds: usualLife(plan, record.child.birthDate),
    replacementInProgress: history.pendingCast !== null,
    probabilityOutgrownNow: chanceNow,
  } as const;
  return {
    forecast: { ...facts, explanation: explainForecast(facts, plan, record, staleDays) },
    surprise: drawn.surprise,
  };
}

export function outcomeOf(now: number, end: number, grownUp: boolean, stale: boolean): ForecastOutcome {
  if (now >= 0.5) return 'already-outgrown';
  if (grownUp) return 'full-grown';
  if (stale) return 'too-few-measurements';
  return end < 0.1 ? 'beyond-horizon' : 'forecast';
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

/** No length that limits the device will measurably grow: by the model, or because its readings have stopped. */
function isGrownUp(
  question: DeviceQuestion,
  room: readonly DimensionRoom[],
  halts: ReadonlyMap<string, Halt>,
): boolean {
  const { plan, posterior, today } = question;
  const further = (l: DimensionLimit, mm: number) =>
    posterior.chanceOfFurtherGrowth(followedSeries(l.series), dayNumber(today), mm);
  // Most children's own draws grow by more before the horizon ends: the whole of growth is seldom asked about.
  const surelyGrows = (l: DimensionLimit, mm: number, seldom: number) =>
    growsBy(question.futures, l, dayNumber(today), mm) >= seldom + SURELY_MORE;
  const skeletal = plan.limits.flatMap((l, d) => (measures[l.series.measure].skeletal ? [d] : []));
  const open = skeletal.filter((d) => halts.get(seriesKey(plan.limits[d].series))?.proved !== true);
  const beyondRoom = (d: number) => Math.max(MEASURABLE_MM, room[d].roomMm);
  return (
    skeletal.length > 0 &&
    !open.some((d) => surelyGrows(plan.limits[d], NOTICED_MM, SELDOM)) &&
    !open.some((d) => surelyGrows(plan.limits[d], beyondRoom(d), NEGLIGIBLE_CHANCE)) &&
    open.every(
      (d) =>
        further(plan.limits[d], NOTICED_MM) < SELDOM &&
        further(plan.limits[d], beyondRoom(d)) < NEGLIGIBLE_CHANCE,
    )
  );
}

/** By so much more than a chance the share of a few hundred draws lies above it only where the model's does too. */
const SURELY_MORE = 0.1;

/** Share of the draws in which a limit's size grows by so much from a day to the horizon's end. */
function growsBy(
  { paths, days, draws }: Futures,
  { series }: DimensionLimit,
  day: DayNumber,
  mm: number,
): number {
  const path = paths.get(seriesKey(followedSeries(series)));
  if (!path || day > days[days.length - 1]) return 0;
  const now = sizesOn({ paths, days, draws }, path, day);
  let more = 0;
  for (let i = 0; i < draws; i++) if (path[(i + 1) * days.length - 1] - now[i] > mm) more++;
  return more / draws;
}

/** Every limit that a strap, a flare or a bar still answers, soonest first: the first way to be tried. */
function adjustmentsDue(
  { limits, search }: DevicePlan,
  futures: Futures,
  lines: DeviceLines,
  today: IsoDate,
): AdjustmentDue[] {
  const due = limits.flatMap((limit, d): AdjustmentDue[] => {
    const way = adjustmentsLeftOn(limit, today)[0];
    if (!way) return [];
    const { chance, days } = dueDays(futures.days, search, [lines.wanted[d]], futures.draws);
    return [
      {
        series: limit.series,
        kind: way.kind,
        stepMm: way.stepMm,
        extensionLeftMm: way.leftMm,
        dueNow: chanceOn(search, chance, dayNumber(today)) >= 0.5,
        p10: reachedOn(days, 0.1),
        p50: reachedOn(days, 0.5),
        days,
      },
    ];
  });
  const soonest = (a: AdjustmentDue) => a.p50 ?? '9999';
  return due.sort((a, b) => soonest(a).localeCompare(soonest(b)));
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
